package panelbook.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;
import panelbook.wire.Basis;
import panelbook.wire.DisplayEntry;
import panelbook.wire.FacilityBook;
import panelbook.wire.Metric;
import panelbook.wire.Purpose;
import panelbook.wire.RoomEntry;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSetEntry;
import panelbook.wire.Trim;
import panelbook.wire.files.RunFile;
import panelbook.wire.files.RunFileFormat;
import panelbook.wire.files.RunFileWriter;
import panelbook.wire.files.RunMetadata;

/**
 * Quillwater, an invented facility, with the runs of a calibrator's visit and of the checks some weeks later.
 *
 * <p>The story. In Alder one follower's backlight wears out, while two others measure far from the hero since they were
 * matched to it by eye, and stay where they were. In Cedar someone turned the hero's gains. Birch and Dogwood only age;
 * in Dogwood nobody ever matched the second display.
 * All of it is set by the moment that the story ends at: the same moment gives the same files, byte by byte.
 */
public final class DemoFacility {
    /** Its name. */
    public static final String NAME = "Quillwater";

    /** The follower that drifts from its hero. */
    public static final String DRIFTED = NAME + "/Alder/A2 client/" + DemoDisplay.PRESET;

    /** The hero that moves. */
    public static final String MOVED_HERO = NAME + "/Cedar/C1 hero/" + DemoDisplay.PRESET;

    /** The followers that the moved hero leaves behind. */
    public static final List<String> LEFT_BEHIND =
            List.of(NAME + "/Cedar/C2 client/" + DemoDisplay.PRESET, NAME + "/Cedar/C3 assist/" + DemoDisplay.PRESET);

    /** The follower that measures farthest from its hero and looks like it. */
    public static final String FAR_BUT_MATCHED = NAME + "/Alder/A3 assist/" + DemoDisplay.PRESET;

    private static final String OPERATOR = "Ilva";
    static final String CALIBRATOR = "Joris";
    private static final Duration VISIT_BEFORE_NOW = Duration.ofDays(40);
    private static final Duration SECOND_VISIT_BEFORE_NOW = Duration.ofDays(20);
    private static final Duration CHECK_BEFORE_NOW = Duration.ofDays(1);
    private static final Duration BETWEEN_RUNS = Duration.ofMinutes(9);
    private static final double HOURS_BETWEEN = 420;
    private static final double HOURS_TO_SECOND_VISIT = 210;

    private static final List<DemoDisplay> DISPLAYS = List.of(
            DemoDisplay.hero("Alder", "A1 hero", DemoTarget.HDR, Primaries.emissive(), 2400),
            DemoDisplay.follower("Alder", "A2 client", DemoTarget.HDR, Primaries.quantumDotLcd(), 5200)
                    .wearingOut(),
            DemoDisplay.follower("Alder", "A3 assist", DemoTarget.HDR, Primaries.laser(), 3100)
                    .trimmedTo(0.0120, -0.0090, trim("gain.red", 5), trim("gain.green", -6), trim("gain.blue", 1)),
            DemoDisplay.follower("Alder", "A4 edit", DemoTarget.HDR, Primaries.phosphorLcd(), 4400)
                    .trimmedTo(-0.0060, -0.0070, trim("gain.red", -3), trim("gain.blue", 4)),
            DemoDisplay.hero("Birch", "B1 hero", DemoTarget.SDR, Primaries.emissive(), 1900),
            DemoDisplay.follower("Birch", "B2 client", DemoTarget.SDR, Primaries.quantumDotLcd(), 2700),
            DemoDisplay.hero("Cedar", "C1 hero", DemoTarget.HDR, Primaries.emissive(), 2900)
                    .turnedLater(1.02, 0.99, 0.87),
            DemoDisplay.follower("Cedar", "C2 client", DemoTarget.HDR, Primaries.quantumDotLcd(), 2200),
            DemoDisplay.follower("Cedar", "C3 assist", DemoTarget.HDR, Primaries.phosphorLcd(), 3600),
            DemoDisplay.hero("Dogwood", "D1 lounge", DemoTarget.LOUNGE, Primaries.quantumDotLcd(), 6100),
            DemoDisplay.follower("Dogwood", "D2 bar", DemoTarget.LOUNGE, Primaries.phosphorLcd(), 5900)
                    .unmatched(),
            DemoDisplay.hero("Elder", "E1 hero", DemoTarget.HDR, Primaries.emissive(), 2100),
            DemoDisplay.follower("Elder", "E2 client", DemoTarget.HDR, Primaries.laser(), 2600)
                    .turnedTo(trim("gain.red", -2), trim("gain.green", -1), trim("gain.blue", -5)));

    private final Instant visit;
    private final Instant check;
    private final Instant now;
    private final List<DemoRun> runs = new ArrayList<>();
    private final DemoVisit secondVisit;
    private final DemoRecord record;

    private DemoFacility(Instant now) {
        this.now = now.truncatedTo(ChronoUnit.HOURS);
        this.visit = this.now.minus(VISIT_BEFORE_NOW);
        this.check = this.now.minus(CHECK_BEFORE_NOW);
        visit();
        match();
        secondVisit = new DemoVisit(
                display("E1 hero"),
                display("E2 client"),
                CALIBRATOR,
                this.now.minus(SECOND_VISIT_BEFORE_NOW),
                HOURS_TO_SECOND_VISIT);
        runs.addAll(secondVisit.runs());
        checks();
        record = new DemoRecord(DISPLAYS, visit, this.now);
        runs.addAll(record.runs());
    }

    /**
     * The facility with its story ending at a moment.
     *
     * @param now cut to the hour; the visit is 40 days before, the checks one day
     */
    public static DemoFacility at(Instant now) {
        return new DemoFacility(now);
    }

    /**
     * Writes the files of the demo: {@code facility.yaml}, two tables of sign-offs and a folder of run files for each step.
     *
     * @param arguments folder, then the moment that the story ends at (ISO 8601; the present when absent)
     */
    public static void main(String[] arguments) throws IOException {
        var now = arguments.length > 1 ? Instant.parse(arguments[1]) : Instant.now();
        at(now).write(Path.of(arguments[0]));
    }

    /** What the facility consists of. */
    public FacilityBook book() {
        var rooms = everywhere()
                .collect(Collectors.groupingBy(DemoDisplay::room, java.util.TreeMap::new, Collectors.toList()))
                .entrySet()
                .stream()
                .map(room -> new RoomEntry(room.getKey(), null, entries(room.getValue())))
                .toList();
        return new FacilityBook(
                NAME,
                "Europe/Lisbon",
                List.of(lounge()),
                List.of(DemoTarget.values()).stream().map(DemoTarget::entry).toList(),
                List.of(DemoMeter.values()).stream()
                        .map(meter -> meter.entry(now))
                        .toList(),
                rooms);
    }

    /** All runs, in the order in which they come in. */
    public List<DemoRun> runs() {
        return List.copyOf(runs);
    }

    /** The matches signed after the runs of {@link DemoStep#RECORD}. */
    public List<DemoSignOff> earlierSignOffs() {
        return record.signOffs(OPERATOR);
    }

    /** The runs of one step. */
    public List<DemoRun> runs(DemoStep step) {
        return runs.stream().filter(run -> run.step() == step).toList();
    }

    /** What is typed while the follower of {@link DemoStep#VISIT} is matched. */
    public List<String> matchLines() {
        return secondVisit.lines();
    }

    /** The matches signed after the runs of {@link DemoStep#MATCH}. */
    public List<DemoSignOff> signOffs() {
        return DISPLAYS.stream()
                .filter(DemoDisplay::matched)
                .map(follower -> new DemoSignOff(
                        follower.path(),
                        heroOf(follower).path(),
                        OPERATOR,
                        visit.plus(Duration.ofHours(8)),
                        follower.trims()))
                .toList();
    }

    /**
     * Writes {@code facility.yaml}, the tables of sign-offs and the run files.
     *
     * @param folder made when it is not there; files of the same names are replaced
     */
    public void write(Path folder) throws IOException {
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("facility.yaml"), DemoYaml.of(book()));
        Files.writeString(folder.resolve("earlier-sign-offs.tsv"), table(earlierSignOffs()));
        Files.writeString(folder.resolve("sign-offs.tsv"), table(signOffs()));
        Files.write(folder.resolve("match.steps"), matchLines());
        var bookings = Files.createDirectories(folder.resolve("bookings"));
        for (var calendar : DemoBookings.calendars(now).entrySet()) {
            Files.writeString(bookings.resolve(calendar.getKey() + ".ics"), calendar.getValue());
        }
        for (var run : runs) {
            var file = folder.resolve(run.step().folder()).resolve(run.fileName());
            Files.createDirectories(file.getParent());
            try (var out = Files.newOutputStream(file)) {
                RunFileWriter.write(run.run(), run.format(), out);
            }
        }
    }

    private static String table(List<DemoSignOff> signOffs) {
        return signOffs.stream()
                .map(s -> String.join(
                                "\t",
                                s.follower(),
                                s.hero(),
                                s.operator(),
                                s.signedAt().toString(),
                                s.trims().stream()
                                        .map(t -> t.control() + "=" + t.clicks())
                                        .collect(Collectors.joining(" ")))
                        + "\n")
                .collect(Collectors.joining());
    }

    private void visit() {
        var at = visit;
        for (var display : DISPLAYS) {
            add(DemoStep.AS_LEFT, Purpose.AS_LEFT, display, display.calibrated(), at, 0);
            at = at.plus(BETWEEN_RUNS);
        }
    }

    private void match() {
        var at = visit.plus(Duration.ofHours(4));
        for (var display : DISPLAYS) {
            if (display.matched() || hasFollowers(display)) {
                add(DemoStep.MATCH, Purpose.MATCH, display, display.trimmed(), at, 0);
                at = at.plus(BETWEEN_RUNS);
            }
        }
    }

    private void checks() {
        var at = check;
        for (var display : DISPLAYS) {
            add(DemoStep.CHECKS, Purpose.CHECK, display, secondVisit.later(display), at, HOURS_BETWEEN);
            at = at.plus(BETWEEN_RUNS);
        }
    }

    private void add(
            DemoStep step,
            Purpose purpose,
            DemoDisplay display,
            SimulatedDisplay panel,
            Instant at,
            double hoursSinceVisit) {
        var format = runs.size() % 3 == 2 ? RunFileFormat.ISO_28178 : RunFileFormat.CSV;
        var hours = display.hours() + hoursSinceVisit;
        var metadata = new RunMetadata(display.path(), DemoMeter.DISC.label(), purpose, CALIBRATOR, at, hours, 55, 1.5);
        var seed = new Random(31L * display.name().hashCode() + step.ordinal());
        var readings = measure(display, panel, hours, seed);
        runs.add(new DemoRun(step, fileName(display, format), format, file(metadata, readings)));
    }

    private static List<Reading> measure(DemoDisplay display, SimulatedDisplay panel, double hours, Random random) {
        return panel.measure(
                display.target().colorimetric(), display.target().patches(), hours, DemoMeter.DISC.truth(), random);
    }

    static RunFile file(RunMetadata metadata, List<Reading> readings) {
        var file = RunFile.builder(metadata);
        for (var reading : readings) {
            var patch = reading.patch();
            var xyz = reading.xyz();
            file.add(patch.red(), patch.green(), patch.blue(), xyz.x(), xyz.y(), xyz.z());
        }
        return file.build();
    }

    private static String fileName(DemoDisplay display, RunFileFormat format) {
        return fileStem(display) + (format == RunFileFormat.CSV ? ".csv" : ".txt");
    }

    static String fileStem(DemoDisplay display) {
        return (display.room() + " " + display.name()).toLowerCase(Locale.ROOT).replace(' ', '-');
    }

    private static Stream<DemoDisplay> everywhere() {
        return Stream.concat(DISPLAYS.stream(), DemoRecord.displays().stream());
    }

    private static DemoDisplay display(String name) {
        return DISPLAYS.stream()
                .filter(display -> display.name().equals(name))
                .findFirst()
                .orElseThrow();
    }

    private static boolean hasFollowers(DemoDisplay display) {
        return display.hero()
                && DISPLAYS.stream()
                        .anyMatch(other -> other.matched() && heroOf(other).equals(display));
    }

    static DemoDisplay heroOf(DemoDisplay follower) {
        return everywhere()
                .filter(display -> display.hero()
                        && display.room().equals(follower.room())
                        && display.target() == follower.target())
                .findFirst()
                .orElseThrow();
    }

    private static List<DisplayEntry> entries(List<DemoDisplay> displays) {
        return displays.stream().map(DemoDisplay::entry).toList();
    }

    /** A set of the house's own, beside those that come with the book. */
    private static ToleranceSetEntry lounge() {
        return new ToleranceSetEntry(
                "Lounge",
                "Where people wait and watch; nobody decides on a picture here.",
                15,
                180,
                3000,
                0.1,
                0.95,
                List.of(
                        policy(Metric.WHITE_LUMINANCE_ERROR, 10),
                        policy(Metric.WHITE_CHROMATICITY_ERROR, 0.010),
                        policy(Metric.DELTA_E_ITP_MEAN, 8),
                        policy(Metric.OWN_DRIFT_LUMINANCE, 10),
                        policy(Metric.OWN_DRIFT_WHITE, 0.008)));
    }

    private static Tolerance policy(Metric metric, double limit) {
        return new Tolerance(metric, limit, Basis.HOUSE_POLICY, null, null, null);
    }

    private static Trim trim(String control, int clicks) {
        return new Trim(control, "all", clicks);
    }
}
