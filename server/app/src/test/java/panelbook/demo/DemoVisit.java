package panelbook.demo;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.simulation.SimulatedDisplay;
import panelbook.wire.Purpose;
import panelbook.wire.Trim;
import panelbook.wire.files.RunFile;
import panelbook.wire.files.RunFileFormat;
import panelbook.wire.files.RunMetadata;

/**
 * The second visit, to Elder. Its follower got a new board, which forgot its calibration and trims, and somebody left a
 * converter in its feed that squeezes full range into narrow. The converter is found by the ramp, both displays are
 * calibrated, and the follower is matched to the hero again: eleven times a control is turned, once past the right
 * setting on purpose, once until a guard objects, the last time as the book suggests.
 */
final class DemoVisit {
    private static final Duration BETWEEN_READINGS = Duration.ofMinutes(5);

    private final DemoDisplay hero;
    private final DemoDisplay follower;
    private final String calibrator;
    private final double hoursSince;
    private final List<DemoRun> runs = new ArrayList<>();
    private final List<String> lines = new ArrayList<>();
    private final List<Trim> settings = new ArrayList<>();
    private Instant clock;

    /**
     * The visit.
     *
     * @param start when the first run is taken
     * @param hoursSince panel hours since the first visit
     */
    DemoVisit(DemoDisplay hero, DemoDisplay follower, String calibrator, Instant start, double hoursSince) {
        this.hero = hero;
        this.follower = follower;
        this.calibrator = calibrator;
        this.hoursSince = hoursSince;
        clock = start;
        calibration();
        match();
    }

    /** Its runs in the order taken; the names of their files say what they are. */
    List<DemoRun> runs() {
        return List.copyOf(runs);
    }

    /** What is typed while the two are matched, line by line. */
    List<String> lines() {
        return List.copyOf(lines);
    }

    /** A display as it is some weeks after the visit: one of this room as it was left, any other as it went. */
    SimulatedDisplay later(DemoDisplay display) {
        if (display.equals(follower)) {
            return DemoClicks.turned(calibrated(follower), follower.target(), settings);
        }
        return display.equals(hero) ? calibrated(hero) : display.later();
    }

    private void calibration() {
        add(
                "follower-as-found",
                follower,
                Purpose.AS_FOUND,
                squeezed(measure(follower, calibrated(follower), 1, true)));
        add("hero-as-left", hero, Purpose.AS_LEFT, measure(hero, calibrated(hero), 2, false));
        add("follower-as-left", follower, Purpose.AS_LEFT, measure(follower, calibrated(follower), 3, false));
    }

    private void match() {
        line("saw bluer whole-image on \"overcast street\"");
        read("match-hero", hero, calibrated(hero));
        turn("gain.blue", -2);
        readFollower("match-1");
        line("better");
        turn("gain.blue", -2);
        readFollower("match-2");
        line("better");
        line("note going past it on purpose, to see where it is");
        turn("gain.blue", -3);
        line("worse");
        turn("gain.blue", 2);
        readFollower("match-3");
        line("better");
        line("saw redder whole-image on \"snow at dusk\"");
        turn("gain.red", -2);
        readFollower("match-4");
        line("better");
        turn("gain.red", -2);
        line("worse");
        back();
        line("saw crushed shadows on \"night interior\"");
        turn("black-level", 1);
        readFollower("match-5");
        turn("black-level", -1);
        turn("gain.green", -2);
        readFollower("match-6");
        line("same");
        line("suggest");
        turn("gain.green", 1);
        readFollower("match-7");
        line("better");
    }

    private void turn(String control, int clicks) {
        settings.add(new Trim(control, "all", clicks));
        line(control + (clicks > 0 ? " +" : " ") + clicks);
    }

    private void back() {
        settings.remove(settings.size() - 1);
        line("back");
    }

    private void readFollower(String name) {
        read(name, follower, DemoClicks.turned(calibrated(follower), follower.target(), settings));
    }

    private void read(String name, DemoDisplay display, SimulatedDisplay panel) {
        line("read " + add(name, display, Purpose.MATCH, measure(display, panel, 10 + runs.size(), false)));
    }

    private void line(String line) {
        lines.add(line);
    }

    /** As the calibrator leaves it at this visit. */
    private SimulatedDisplay calibrated(DemoDisplay display) {
        return display.calibrated().toBuilder()
                .calibratedAt(display.hours() + hoursSince)
                .build();
    }

    /** Gives the name of the file. */
    private String add(String name, DemoDisplay display, Purpose purpose, List<Reading> readings) {
        var metadata = new RunMetadata(
                display.path(),
                DemoMeter.DISC.label(),
                purpose,
                calibrator,
                clock,
                display.hours() + hoursSince,
                55,
                1.5);
        var file = RunFile.builder(metadata);
        for (var reading : readings) {
            var patch = reading.patch();
            var xyz = reading.xyz();
            file.add(patch.red(), patch.green(), patch.blue(), xyz.x(), xyz.y(), xyz.z());
        }
        clock = clock.plus(BETWEEN_READINGS);
        var fileName = name + ".csv";
        runs.add(new DemoRun(DemoStep.VISIT, fileName, RunFileFormat.CSV, file.build()));
        return fileName;
    }

    private List<Reading> measure(DemoDisplay display, SimulatedDisplay panel, int seed, boolean converter) {
        var codes = display.target().colorimetric().codes();
        var patches = display.target().patches();
        return panel.measure(
                display.target().colorimetric(),
                converter
                        ? patches.stream().map(patch -> narrowed(patch, codes)).toList()
                        : patches,
                display.hours() + hoursSince,
                DemoMeter.DISC.truth(),
                new Random(31L * display.name().hashCode() + seed));
    }

    /** What leaves the converter when a patch goes in. */
    private static Patch narrowed(Patch patch, CodeValues codes) {
        var narrow = new CodeValues(SignalRange.NARROW, codes.bitDepth());
        return new Patch(
                narrow.toCode(codes.toSignal(patch.red())),
                narrow.toCode(codes.toSignal(patch.green())),
                narrow.toCode(codes.toSignal(patch.blue())));
    }

    /** The readings under the patches that were sent into the converter. */
    private List<Reading> squeezed(List<Reading> behind) {
        var sent = follower.target().patches();
        var readings = new ArrayList<Reading>();
        for (var i = 0; i < sent.size(); i++) {
            readings.add(new Reading(sent.get(i), behind.get(i).xyz()));
        }
        return readings;
    }
}
