package panelbook.cli.command;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Refused;
import panelbook.cli.service.Remembered;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.spool.PendingRun;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Instrument;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.RunVerdict;
import panelbook.wire.Target;
import panelbook.wire.files.CodeRange;
import panelbook.wire.files.RunFile;
import panelbook.wire.files.RunFileReader;
import panelbook.wire.files.RunFileResult;
import panelbook.wire.files.RunMetadata;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/**
 * Uploads run files. What waits in the spool goes first; once the service is away, the rest is checked here and spooled,
 * so that runs arrive in the order in which they were given.
 */
@Command(
        footer = {
            "  panelbook run upload main.csv",
            "  panelbook run upload morning/*.csv --operator Mara",
            "  panelbook run upload main.csv --preset \"Suite 1/Main/HDR\" --instrument \"Meter 1\" \\",
            "    --purpose as-left --operator Mara --taken-at 2026-03-31T14:05:00+02:00"
        },
        description = {
            "",
            "Each file is one run: CSV with a header row, or the text form of ISO 28178. What the file does not say is taken "
                    + "from the options; where both say different things the file is not uploaded. Each run is answered with its "
                    + "verdict. The same run again is harmless.",
            "",
            "When the service cannot be reached, the run is checked on this machine and kept in the spool; the next command "
                    + "that reaches the service sends it. Such a run counts as done: exit code 0, and a line on standard error says "
                    + "so. When several files end differently: 1 if any failed, else 3 if anything is beyond tolerance, else 0.",
            "",
            "Caution: static bright patches age emissive panels; measure no longer than needed and show black afterwards. "
                    + "Flashing patches can harm photosensitive viewers; warn whoever may look. Cabinets are opened by qualified "
                    + "service staff only. Local rules and the maker's instructions come first."
        })
final class RunUploading extends Action {

    private static final int MOST_PROBLEMS = 20;

    @Parameters(paramLabel = "FILE", arity = "1..*", description = "Run files; - for standard input.")
    List<String> files = new ArrayList<>();

    @Mixin
    Said said = new Said();

    /** What options say about the runs; each null when not given. */
    static final class Said {
        @Option(
                names = "--preset",
                paramLabel = "PRESET",
                description = "ROOM/DISPLAY/PRESET, FACILITY/ROOM/DISPLAY/PRESET or id.")
        @Nullable
        String preset;

        @Option(names = "--instrument", paramLabel = "INSTRUMENT", description = "Name or id of the instrument.")
        @Nullable
        String instrument;

        @Option(names = "--purpose", paramLabel = "PURPOSE", description = "as-found, as-left, check or match.")
        @Nullable
        String purpose;

        @Option(names = "--operator", paramLabel = "NAME", description = "Who took it.")
        @Nullable
        String operator;

        @Option(names = "--taken-at", paramLabel = "TIME", description = "When, with its offset.")
        @Nullable
        String takenAt;

        @Option(names = "--panel-hours", paramLabel = "H", description = "The display's own count of hours.")
        @Nullable
        String panelHours;

        @Option(
                names = "--minutes-since-power-on",
                paramLabel = "MIN",
                description = "Minutes since the display was switched on.")
        @Nullable
        Integer minutesSincePowerOn;

        @Option(names = "--ambient-lux", paramLabel = "LX", description = "Illuminance at the screen, lx.")
        @Nullable
        String ambientLux;

        @Option(names = "--remarks", paramLabel = "TEXT", description = "Remarks.")
        @Nullable
        String remarks;

        @Option(
                names = "--baseline-reason",
                paramLabel = "TEXT",
                description = "For an as-left run that is to be the baseline although it does not verify: why.")
        @Nullable
        String baselineReason;

        RunMetadata metadata() {
            try {
                return new RunMetadata(
                        preset,
                        instrument,
                        purpose == null ? null : Words.one(Purpose.class, "--purpose", purpose),
                        operator,
                        takenAt == null ? null : Words.time("--taken-at", takenAt),
                        panelHours == null ? null : (Double) Words.number("--panel-hours", panelHours),
                        minutesSincePowerOn,
                        ambientLux == null ? null : (Double) Words.number("--ambient-lux", ambientLux));
            } catch (IllegalArgumentException e) {
                throw Failure.usage(e.getMessage() + ".");
            }
        }
    }

    private final Map<String, Preset> presets = new HashMap<>();
    private final Map<String, Instrument> instruments = new HashMap<>();
    private final Map<UUID, Target> targets = new HashMap<>();
    private RunMetadata options = RunMetadata.empty();
    private RunMetadata otherwise = RunMetadata.empty();
    private boolean away;
    private boolean failed;
    private boolean beyond;

    @Override
    int work() {
        printer().checkFields(Verdicts.Outcome.class);
        options = said.metadata();
        sendSpooled();
        for (var i = 0; i < files.size(); i++) {
            upload(files.get(i), i + 1);
        }
        if (failed) {
            return ExitCode.FAILED;
        }
        return beyond ? ExitCode.BEYOND : ExitCode.DONE;
    }

    /**
     * What became of a run.
     *
     * @param runId null while a spooled run's names are not known
     * @param presetId likewise
     * @param spooled whether it waits on this machine
     */
    record Uploaded(@Nullable UUID runId, @Nullable UUID presetId, boolean spooled) {}

    /**
     * Uploads the one file given, or spools it; for a command that does more with it.
     *
     * @param whereNothingIsSaid stands where neither file nor options say anything
     */
    Uploaded uploadOne(RunMetadata whereNothingIsSaid) {
        if (files.size() != 1) {
            throw Failure.usage("Name one file, not " + files.size() + ".");
        }
        options = said.metadata();
        otherwise = whereNothingIsSaid;
        sendSpooled();
        return process(files.get(0), 1);
    }

    private void sendSpooled() {
        if (connection().spool().isEmpty()) {
            connection().leaveSpool();
            return;
        }
        var outcome = SpoolSending.send(connection(), connection().logIn().service());
        outcome.verdicts().forEach(v -> beyond |= Verdicts.print(printer(), "spool", v) == ExitCode.BEYOND);
        SpoolSending.report(connection(), outcome.sending());
        failed |= !outcome.sending().setAside().isEmpty();
        var stopped = outcome.sending().stopped();
        if (stopped != null && !(stopped instanceof ServiceAway)) {
            throw stopped;
        }
        away = stopped != null;
    }

    private void upload(String file, int number) {
        try {
            process(file, number);
        } catch (Failure e) {
            fail(file, e);
        }
    }

    private Uploaded process(String file, int number) {
        var read = read(file);
        var pending = pending(file, read.run());
        if (!away) {
            pending = resolve(pending);
        }
        check(file, read, target(pending));
        return send(file, number, read.run(), pending);
    }

    private void fail(String file, Failure e) {
        failed = true;
        if (printer().isJson()) {
            Verdicts.print(printer(), new Verdicts.Outcome(file, "failed", e.text(), null));
        }
        at().err().println("panelbook: " + e.text());
        e.places().forEach(place -> at().err().println("  " + place));
        // a wrong token or role will not do for the next file either
        if (e instanceof Refused refused && (refused.status() == 401 || refused.status() == 403)) {
            throw Failure.failed(
                    "Nothing more was uploaded. The files are unchanged; upload them again when this is mended.");
        }
    }

    private RunFileResult.Read read(String file) {
        try (var in = file.equals("-") ? at().in() : Files.newInputStream(at().file(file))) {
            var result = RunFileReader.read(in, file);
            if (result instanceof RunFileResult.Read read) {
                read.remarks().forEach(remark -> at().err().println(remark));
                return read;
            }
            throw refusedFile(file, (RunFileResult.Refused) result);
        } catch (IOException e) {
            throw Failure.failed(file + " cannot be read: " + FileReasons.of(e), e);
        }
    }

    private static Failure refusedFile(String file, RunFileResult.Refused refused) {
        var problems = refused.problems();
        if (refused.total() == 1) {
            return Failure.failed(problems.get(0).text());
        }
        var places = new ArrayList<String>();
        problems.stream().limit(MOST_PROBLEMS).forEach(p -> places.add(p.text()));
        if (refused.total() > places.size()) {
            places.add("and " + (refused.total() - places.size()) + " more");
        }
        return Failure.failedAt(
                file + " has " + refused.total()
                        + " problems; nothing of it was uploaded. Mend these and upload it again:",
                places);
    }

    private PendingRun pending(String file, RunFile run) {
        var inFile = run.metadata();
        contradiction(file, "preset", "--preset", inFile.preset(), options.preset());
        contradiction(file, "instrument", "--instrument", inFile.instrument(), options.instrument());
        contradiction(file, "purpose", "--purpose", inFile.purpose(), options.purpose());
        contradiction(file, "operator", "--operator", inFile.operator(), options.operator());
        contradiction(file, "time", "--taken-at", inFile.takenAt(), options.takenAt());
        contradiction(file, "panel hours", "--panel-hours", inFile.panelHours(), options.panelHours());
        contradiction(
                file,
                "minutes since power-on",
                "--minutes-since-power-on",
                inFile.minutesSincePowerOn(),
                options.minutesSincePowerOn());
        contradiction(file, "ambient light", "--ambient-lux", inFile.ambientLux(), options.ambientLux());
        var all = inFile.orElse(options).orElse(otherwise);
        return new PendingRun(
                needed(file, all.preset(), "preset", "--preset"),
                null,
                needed(file, all.instrument(), "instrument", "--instrument"),
                null,
                needed(file, all.purpose(), "purpose", "--purpose"),
                needed(file, all.operator(), "operator", "--operator"),
                needed(file, all.takenAt(), "time", "--taken-at"),
                all.panelHours(),
                all.minutesSincePowerOn(),
                all.ambientLux(),
                file.equals("-") ? null : String.valueOf(at().file(file).getFileName()),
                said.remarks,
                said.baselineReason,
                run.entries());
    }

    private static void contradiction(
            String file, String what, String option, @Nullable Object inFile, @Nullable Object asked) {
        if (inFile != null && asked != null && !inFile.equals(asked)) {
            throw Failure.failed(file + ": its " + what + " is \"" + inFile + "\", but " + option + " says \"" + asked
                    + "\". Leave the option out, or mend the file.");
        }
    }

    private static <T> T needed(String file, @Nullable T value, String what, String option) {
        if (value == null) {
            throw Failure.failed(file + " does not name its " + what + ". Give it by " + option + ", or in the file.");
        }
        return value;
    }

    private PendingRun resolve(PendingRun run) {
        try {
            var preset = presets.get(run.preset());
            if (preset == null) {
                preset = names().preset(run.preset());
                presets.put(run.preset(), preset);
            }
            var instrument = instruments.get(run.instrument());
            if (instrument == null) {
                instrument = names().instrument(run.instrument());
                instruments.put(run.instrument(), instrument);
            }
            return run.resolved(preset.id(), instrument.id());
        } catch (ServiceAway e) {
            goneAway(e);
            return run;
        }
    }

    private void goneAway(ServiceAway e) {
        away = true;
        at().err().println("panelbook: " + e.text());
    }

    /** The target that a run is checked against here; null when it is not known. */
    private @Nullable Target target(PendingRun run) {
        var preset = presets.get(run.preset());
        if (preset == null) {
            preset = remembered().preset(run.preset());
        }
        return preset == null ? null : target(preset.targetId());
    }

    private @Nullable Target target(UUID id) {
        if (!targets.containsKey(id) && !away) {
            try {
                targets.put(id, names().target(id.toString()));
            } catch (ServiceAway e) {
                goneAway(e);
            }
        }
        var fresh = targets.get(id);
        return fresh != null ? fresh : remembered().target(id);
    }

    private Remembered remembered() {
        return names().remembered();
    }

    private void check(String file, RunFileResult.Read read, @Nullable Target target) {
        if (target == null) {
            return;
        }
        var range = CodeRange.of(target.signalRange(), target.bitDepth());
        if (RunFileReader.checkCodes(read, file, range) instanceof RunFileResult.Refused refused) {
            at().err()
                    .println("panelbook: " + file + " does not fit target " + target.name() + ". Is the preset right?");
            throw refusedFile(file, refused);
        }
    }

    private Uploaded send(String file, int number, RunFile run, PendingRun pending) {
        var preset = pending.presetId();
        var instrument = pending.instrumentId();
        if (away || preset == null || instrument == null) {
            return spool(file, pending);
        }
        var progress = new Progress(at(), file, number, files.size());
        try {
            var verdict = connection()
                    .plainService()
                    .post(RunVerdict.class, "/runs", pending.upload(preset, instrument), progress::sent)
                    .value();
            progress.clear();
            beyond |= Verdicts.print(printer(), file, verdict) == ExitCode.BEYOND;
            return new Uploaded(verdict.runId(), preset, false);
        } catch (ServiceAway e) {
            progress.clear();
            goneAway(e);
            return spool(file, pending);
        } catch (Refused e) {
            progress.clear();
            throw placed(file, run, e);
        }
    }

    /** The refusal with lines of the file in place of pointers into the request. */
    private static Failure placed(String file, RunFile run, Refused e) {
        var errors = e.problem().errors();
        if (e.status() == 401 || e.status() == 403) {
            return e;
        }
        if (e.status() == 409) {
            return Failure.failed(
                    file + ": this run was uploaded before, with other remarks. It was left as it is. " + e.text(), e);
        }
        if (errors == null || errors.isEmpty()) {
            return Failure.failed(file + ": " + e.text(), e);
        }
        var places = errors.stream()
                .map(error -> place(file, run, error.pointer()) + ": " + error.detail())
                .toList();
        return places.size() == 1
                ? Failure.failed(places.get(0), e)
                : Failure.failedAt(file + " was refused; nothing of it was stored:", places);
    }

    private static String place(String file, RunFile run, String pointer) {
        var parts = pointer.split("/");
        if (parts.length > 2 && parts[1].equals("readings") && parts[2].matches("\\d{1,9}")) {
            var index = Integer.parseInt(parts[2]);
            if (index < run.size()) {
                return file + ", line " + run.reading(index).line() + (parts.length > 3 ? ", " + parts[3] : "");
            }
        }
        return file + ", " + pointer.replaceFirst("^/", "");
    }

    private Uploaded spool(String file, PendingRun run) {
        var known = known(run);
        connection().spool().add(connection().logIn().service(), at().clock().instant(), known);
        var unnamed = known.presetId() == null || known.instrumentId() == null
                ? " Its names are not known here and will be looked up when it is sent."
                : "";
        Verdicts.print(printer(), new Verdicts.Outcome(file, "spooled", localCheck(known), null));
        at().err().println("Spooled " + file + "; the next command that reaches the service sends it." + unnamed);
        return known.presetId() == null || known.instrumentId() == null
                ? new Uploaded(null, null, true)
                : new Uploaded(
                        known.upload(known.presetId(), known.instrumentId()).id(), known.presetId(), true);
    }

    private PendingRun known(PendingRun run) {
        var preset = remembered().preset(run.preset());
        var instrument = remembered().instrument(run.instrument());
        return run.presetId() != null || preset == null || instrument == null
                ? run
                : run.resolved(preset.id(), instrument.id());
    }

    private String localCheck(PendingRun run) {
        var target = target(run);
        return target == null
                ? "checked here: its file only"
                : "checked here: file, code values, and against " + target.name() + " as last seen: "
                        + LocalCheck.figures(target, run.readings());
    }
}
