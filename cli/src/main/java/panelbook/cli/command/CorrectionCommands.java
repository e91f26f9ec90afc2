package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Correction;
import panelbook.wire.CorrectionDraft;
import panelbook.wire.CorrectionPreview;
import panelbook.wire.CorrectionWithdrawalDraft;
import panelbook.wire.Instrument;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on corrections of instruments. */
final class CorrectionCommands {

    private static final String METER = "Name or id of the field meter.";

    private static final List<Column<CorrectionText.Line>> LINES = List.of(
            of("WHAT", CorrectionText.Line::what),
            of("SUBJECT", CorrectionText.Line::subject),
            of("TEXT", CorrectionText.Line::text));

    private CorrectionCommands() {}

    private static String path(Instrument meter) {
        return "/instruments/" + meter.id() + "/corrections";
    }

    @Command(
            footer = {
                "  panelbook instrument correction make \"Meter 1\" --reference 4f1c9a52-0000-4000-8000-3d1f5a2b7c10 \\",
                "    --field 7d7f2b0c-0000-4000-8000-55aa10f0c3e1 --model M-55 --dry-run",
                "  panelbook instrument correction make \"Meter 1\" --reference 4f1c9a52-0000-4000-8000-3d1f5a2b7c10 \\",
                "    --field 7d7f2b0c-0000-4000-8000-55aa10f0c3e1 --display \"Suite 1/Client\" --yes"
            },
            description = {
                "",
                "Measure one preset with the reference instrument and with the field meter, in one go: red, green and blue "
                        + "alone, and white. Shows what the correction changes before it is made; readings stay as they "
                        + "were taken. A new version replaces the one before it, for old runs and new ones."
            })
    static final class Make extends Action {
        @Parameters(paramLabel = "METER", description = METER)
        String meter = "";

        @Option(
                names = "--reference",
                required = true,
                paramLabel = "RUN",
                description = "Id of the reference instrument's run.")
        String reference = "";

        @Option(names = "--field", required = true, paramLabel = "RUN", description = "Id of the field meter's run.")
        String field = "";

        @Option(names = "--display", paramLabel = "DISPLAY", description = "For this display: ROOM/DISPLAY or id.")
        @Nullable
        String display;

        @Option(names = "--model", paramLabel = "MODEL", description = "For all displays of this model.")
        @Nullable
        String model;

        @Option(
                names = "--keep-luminance",
                description = "Take chromaticity alone from the reference: for runs not taken in one go.")
        boolean keepLuminance;

        @Option(
                names = "--valid-from",
                paramLabel = "TIME",
                description = "For runs taken from then on, as after a repair (default: all).")
        @Nullable
        String validFrom;

        @Option(names = "--note", paramLabel = "TEXT", description = "What others should know of it.")
        @Nullable
        String note;

        @Option(names = "--dry-run", description = "Show what it would change, and make nothing.")
        boolean dryRun;

        @Option(names = "--yes", description = "Make it without asking.")
        boolean yes;

        @Override
        int work() {
            printer().checkFields(dryRun ? CorrectionPreview.class : Correction.class);
            if ((display == null) == (model == null)) {
                throw Failure.usage("Say what it is for: either --display or --model.");
            }
            var of = names().instrument(meter);
            var made = service().list(Correction.class, path(of));
            var draft = draft(of, made);
            if (made.stream().anyMatch(one -> one.id().equals(draft.id()))) {
                return make(of, draft);
            }
            show(service()
                    .post(CorrectionPreview.class, path(of) + "/preview", draft)
                    .value());
            if (dryRun) {
                printer().say("Nothing was changed. To make it, leave --dry-run out.");
                return ExitCode.DONE;
            }
            return yes || agreed() ? make(of, draft) : left();
        }

        /** The same command again is the same correction, until that was withdrawn. */
        private CorrectionDraft draft(Instrument of, List<Correction> made) {
            var referenceRun = Names.id("a run", reference);
            var fieldRun = Names.id("a run", field);
            var displayId = display == null ? null : names().display(display).id();
            var from = validFrom == null ? null : Words.time("--valid-from", validFrom);
            var withdrawn = made.stream()
                    .filter(one -> one.withdrawal() != null
                            && one.referenceRunId().equals(referenceRun)
                            && one.fieldRunId().equals(fieldRun))
                    .count();
            return new CorrectionDraft(
                    id(of.id(), referenceRun, fieldRun, displayId, from, withdrawn),
                    displayId,
                    model,
                    referenceRun,
                    fieldRun,
                    keepLuminance,
                    from,
                    note);
        }

        private UUID id(
                UUID meterId,
                UUID referenceRun,
                UUID fieldRun,
                @Nullable UUID displayId,
                @Nullable Instant from,
                long withdrawn) {
            return idOf(
                    "correction",
                    meterId,
                    referenceRun,
                    fieldRun,
                    Objects.toString(displayId, ""),
                    Objects.toString(model, ""),
                    keepLuminance,
                    Objects.toString(from, ""),
                    Objects.toString(note, ""),
                    withdrawn);
        }

        private void show(CorrectionPreview preview) {
            if (printer().isJson() && dryRun) {
                printer().one(CorrectionPreview.class, preview, List.of());
            } else if (printer().isJson()) {
                CorrectionText.of(preview).forEach(line -> printer().say(line.together()));
            } else if (at().personReadsOut()) {
                CorrectionText.of(preview).forEach(line -> printer().line(line.together()));
            } else {
                printer().list(CorrectionText.Line.class, CorrectionText.of(preview), LINES);
            }
        }

        private boolean agreed() {
            if (!at().personReadsIn() || !at().personReadsErr()) {
                throw Failure.usage("Nothing was changed. To make it, add --yes; to look only, add --dry-run.");
            }
            at().err().print("Make it? y or n: ");
            at().err().flush();
            try {
                var typed = new BufferedReader(new InputStreamReader(at().in(), StandardCharsets.UTF_8)).readLine();
                return typed != null
                        && List.of("y", "yes").contains(typed.strip().toLowerCase(java.util.Locale.ROOT));
            } catch (IOException e) {
                throw Failure.failed(
                        "What you typed could not be read: " + e.getMessage() + ". Nothing was changed.", e);
            }
        }

        private int left() {
            printer().say("Nothing was changed.");
            return ExitCode.FAILED;
        }

        private int make(Instrument of, CorrectionDraft draft) {
            var added = service().post(Correction.class, path(of), draft);
            if (printer().isJson()) {
                printer().one(Correction.class, added.value(), List.of());
            }
            printer()
                    .say((added.created() ? "Made " : "There already, unchanged: ")
                            + added.value().name() + ". Next: panelbook instrument correction list "
                            + Words.quoted(of.name()));
            return ExitCode.DONE;
        }
    }

    @Command(
            footer = "  panelbook instrument correction list \"Meter 1\"",
            description = {"", "All versions; those in force say for runs of which time."})
    static final class ListAll extends Action {
        @Parameters(paramLabel = "METER", description = METER)
        String meter = "";

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        int work() {
            printer().checkFields(Correction.class);
            var of = names().instrument(meter);
            var corrections = service().list(Correction.class, Past.of(path(of), asOf));
            printer().list(Correction.class, corrections, Views.corrections().columns());
            if (corrections.isEmpty() && at().personReadsErr()) {
                printer().say("None on file. Next: panelbook instrument correction make --help");
            }
            return ExitCode.DONE;
        }
    }

    @Command(
            footer = {
                "  panelbook instrument correction withdraw \"Meter 1\" 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 \\",
                "    --reason \"wrong display\""
            },
            description = {"", "Runs are read as before it was made, and judged anew. The correction stays on record."})
    static final class Withdraw extends Action {
        @Parameters(index = "0", paramLabel = "METER", description = METER)
        String meter = "";

        @Parameters(
                index = "1",
                paramLabel = "CORRECTION",
                description = "Id of it; panelbook instrument correction list shows it.")
        String correction = "";

        @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "Why; kept on record.")
        String reason = "";

        @Override
        int work() {
            printer().checkFields(Correction.class);
            var id = Names.id("an instrument correction", correction);
            var path = path(names().instrument(meter)) + "/" + id + "/withdrawal";
            var withdrawn = service()
                    .post(Correction.class, path, new CorrectionWithdrawalDraft(reason))
                    .value();
            return changed(Views.corrections(), withdrawn, "Withdrew " + withdrawn.name(), "");
        }
    }
}
