package panelbook.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.simulation.Ageing;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;
import panelbook.wire.Purpose;
import panelbook.wire.files.RunFileFormat;
import panelbook.wire.files.RunMetadata;

/**
 * Two years of the facility: calibrations in their turn, and what an unattended probe checked between them. The rooms of the
 * story were checked once a month until the calibrator's visit; three further rooms every week until yesterday.
 *
 * <p>In Fir the hero loses light faster than its turn of calibration allows for. In Gorse somebody was in the hero's menu
 * three weeks ago: it stepped, by less than its tolerance. Hazel is the lounge's sister, where little happens.
 */
final class DemoRecord {
    /** The hero that stepped. */
    static final String STEPPED_HERO = DemoFacility.NAME + "/Gorse/G1 hero/" + DemoDisplay.PRESET;

    /** The hero that will leave tolerance before its turn. */
    static final String FADING_HERO = DemoFacility.NAME + "/Fir/F1 hero/" + DemoDisplay.PRESET;

    private static final String PROBE = "Room probe";
    private static final Duration YEARS = Duration.ofDays(730);
    private static final Duration LAST_CHECK = Duration.ofDays(1);
    private static final Duration STEPPED = Duration.ofDays(24);
    private static final Duration TO_MATCH = Duration.ofHours(3);

    /** Panel hours a day of the further rooms. */
    private static final double HOURS_PER_DAY = 10;

    /** Days from the last turn before the visit to the visit, and what the story's rooms ran before it, at most. */
    private static final int TURN_OF_STORY = 60;

    private static final List<Further> FURTHER = List.of(
            new Further(DemoDisplay.hero("Fir", "F1 hero", DemoTarget.SDR, Primaries.emissive(), 9200), 11_500, 55, 43),
            new Further(
                    DemoDisplay.follower("Fir", "F2 client", DemoTarget.SDR, Primaries.quantumDotLcd(), 8800),
                    70_000,
                    55,
                    43),
            new Further(
                    DemoDisplay.hero("Gorse", "G1 hero", DemoTarget.SDR, Primaries.emissive(), 8600), 200_000, 90, 78),
            new Further(
                    DemoDisplay.follower("Gorse", "G2 client", DemoTarget.SDR, Primaries.quantumDotLcd(), 9100),
                    80_000,
                    90,
                    78),
            new Further(
                    DemoDisplay.follower("Gorse", "G3 assist", DemoTarget.SDR, Primaries.phosphorLcd(), 8300),
                    90_000,
                    90,
                    78),
            new Further(
                    DemoDisplay.hero("Hazel", "H1 lounge", DemoTarget.LOUNGE, Primaries.quantumDotLcd(), 9500),
                    40_000,
                    180,
                    150),
            new Further(
                    DemoDisplay.follower("Hazel", "H2 bar", DemoTarget.LOUNGE, Primaries.phosphorLcd(), 9700),
                    45_000,
                    180,
                    150));

    private final Instant now;
    private final List<DemoRun> runs = new ArrayList<>();

    /**
     * The record.
     *
     * @param story the displays of the rooms that the story is told of
     * @param visit when the story's calibrator came
     * @param now when the story ends
     */
    DemoRecord(List<DemoDisplay> story, Instant visit, Instant now) {
        this.now = now;
        for (var i = 0; i < story.size(); i++) {
            before(story.get(i), visit.plus(Duration.ofMinutes(9L * i)));
        }
        for (var i = 0; i < FURTHER.size(); i++) {
            further(FURTHER.get(i), Duration.ofMinutes(11L * i));
        }
        runs.sort(Comparator.comparing(run -> run.run().metadata().takenAt()));
    }

    /**
     * A display of a further room.
     *
     * @param display its panel hours are those of now
     * @param tauHours its light goes as exp(-hours / tau), its blue a fifth faster
     * @param turnDays days from calibration to calibration
     * @param lastDaysAgo when it was calibrated last
     */
    private record Further(DemoDisplay display, double tauHours, int turnDays, int lastDaysAgo) {

        SimulatedDisplay calibratedAt(double hours) {
            var ageing = new Ageing(tauHours, 1);
            return display.calibrated().toBuilder()
                    .ageing(ageing, ageing, new Ageing(tauHours / 1.2, 1))
                    .calibratedAt(hours)
                    .build();
        }
    }

    /** The displays of the further rooms. */
    static List<DemoDisplay> displays() {
        return FURTHER.stream().map(Further::display).toList();
    }

    /** All runs in the order taken. */
    List<DemoRun> runs() {
        return List.copyOf(runs);
    }

    /** The matches signed in the further rooms when they were calibrated last. */
    List<DemoSignOff> signOffs(String operator) {
        return FURTHER.stream()
                .filter(further -> further.display().matched())
                .map(further -> new DemoSignOff(
                        further.display().path(),
                        DemoFacility.heroOf(further.display()).path(),
                        operator,
                        last(further).plus(Duration.ofHours(5)),
                        List.of()))
                .toList();
    }

    private void before(DemoDisplay display, Instant visit) {
        var perDay = Math.min(HOURS_PER_DAY, (display.hours() - 100) / YEARS.toDays());
        var start = now.minus(YEARS);
        for (var turn = visit.minus(Duration.ofDays(TURN_OF_STORY));
                turn.isAfter(start);
                turn = turn.minus(Duration.ofDays(TURN_OF_STORY))) {
            var hours = display.hours() - perDay * days(turn, visit);
            var panel = display.calibrated().toBuilder().calibratedAt(hours).build();
            add(DemoStep.RECORD, Purpose.AS_LEFT, display, panel, turn, hours);
            var check = turn.plus(Duration.ofDays(TURN_OF_STORY / 2));
            add(DemoStep.RECORD, Purpose.CHECK, display, panel, check, display.hours() - perDay * days(check, visit));
        }
    }

    private void further(Further further, Duration later) {
        var last = last(further).plus(later);
        add(further, Purpose.AS_LEFT, last, further.calibratedAt(hours(further, last)));
        add(further, Purpose.MATCH, last.plus(TO_MATCH), further.calibratedAt(hours(further, last)));
        checks(further, last, now.minus(LAST_CHECK).plus(later));
        var turn = Duration.ofDays(further.turnDays());
        for (var at = last.minus(turn); at.isAfter(now.minus(YEARS)); at = at.minus(turn)) {
            add(further, Purpose.AS_LEFT, at, further.calibratedAt(hours(further, at)));
            checks(further, at, at.plus(turn).minus(Duration.ofDays(2)));
        }
    }

    private void checks(Further further, Instant calibrated, Instant end) {
        var panel = further.calibratedAt(hours(further, calibrated));
        for (var at = calibrated.plus(Duration.ofDays(7)); !at.isAfter(end); at = at.plus(Duration.ofDays(7))) {
            var stepped = further.display().path().equals(STEPPED_HERO) && at.isAfter(now.minus(STEPPED));
            add(
                    further,
                    Purpose.CHECK,
                    at,
                    stepped ? panel.toBuilder().gains(0.957, 0.958, 0.960).build() : panel);
        }
    }

    private Instant last(Further further) {
        return now.minus(Duration.ofDays(further.lastDaysAgo()));
    }

    private double hours(Further further, Instant at) {
        return further.display().hours() - HOURS_PER_DAY * days(at, now);
    }

    private static double days(Instant from, Instant to) {
        return Duration.between(from, to).toMinutes() / 1440.0;
    }

    private void add(Further further, Purpose purpose, Instant at, SimulatedDisplay panel) {
        var step = at.isAfter(last(further).plus(Duration.ofHours(12))) ? DemoStep.SINCE : DemoStep.RECORD;
        add(step, purpose, further.display(), panel, at, hours(further, at));
    }

    private void add(
            DemoStep step, Purpose purpose, DemoDisplay display, SimulatedDisplay panel, Instant at, double hours) {
        var who = purpose == Purpose.CHECK ? PROBE : DemoFacility.CALIBRATOR;
        var metadata = new RunMetadata(
                display.path(), DemoMeter.DISC.label(), purpose, who, at, Math.round(hours * 10) / 10.0, 55, 1.5);
        var random = new Random(31L * display.name().hashCode() + at.getEpochSecond());
        var patches = purpose == Purpose.CHECK
                ? few(display.target())
                : display.target().patches();
        var readings = panel.measure(display.target().colorimetric(), patches, hours, DemoMeter.DISC.truth(), random);
        var name =
                LocalDate.ofInstant(at, ZoneOffset.UTC) + "-" + DemoFacility.fileStem(display) + "-" + purpose + ".csv";
        runs.add(new DemoRun(step, name, RunFileFormat.CSV, DemoFacility.file(metadata, readings)));
    }

    /** What a probe has time for: every other grey and the colours that a primary at full drive gives. */
    private static List<Patch> few(DemoTarget target) {
        var all = target.patches();
        var few = new LinkedHashSet<Patch>();
        for (var i = 0; i < 27 && i < all.size(); i++) {
            if (i > 20 || i % 2 == 0) {
                few.add(all.get(i));
            }
        }
        return List.copyOf(few);
    }
}
