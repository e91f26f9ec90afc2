package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Paths;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.AlertNotice;
import panelbook.wire.Decision;
import panelbook.wire.Display;
import panelbook.wire.JudgedAnew;
import panelbook.wire.Match;
import panelbook.wire.MatchWithdrawalDraft;
import panelbook.wire.MergedDisplay;
import panelbook.wire.MergerDraft;
import panelbook.wire.Preset;
import panelbook.wire.Run;
import panelbook.wire.RunVerdict;
import panelbook.wire.RunWithdrawalDraft;
import panelbook.wire.WithdrawnMatch;
import panelbook.wire.WithdrawnRun;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands that put mistakes right. The history keeps both the mistake and what was made of it. */
final class MendingCommands {

    /** One line of what became of it. */
    record Row(String what, @Nullable Object state, String subject, String text) {}

    private static final List<Column<Row>> COLUMNS =
            List.of(of("WHAT", Row::what), of("STATE", Row::state), of("SUBJECT", Row::subject), of("TEXT", Row::text));

    private MendingCommands() {}

    @Command(
            footer = {
                "  panelbook run withdraw 4f1c9a52-0000-4000-8000-3d1f5a2b7c10 \\",
                "    --reason \"taken on the client display\" --onto \"Suite 1/Client/HDR\"",
                "  panelbook run withdraw 4f1c9a52-0000-4000-8000-3d1f5a2b7c10 --reason \"lamp was on\""
            },
            description = {
                "",
                "The run stays in the book, marked, and counts nowhere any longer: not as a baseline, not as the latest run, not "
                        + "for alerts or panel hours. All that rested on it is judged anew, as if it had never been uploaded.",
                "",
                "With --onto, its readings are entered again as a run of the preset that they were taken on. Exit code 3 when "
                        + "something that was judged anew is beyond tolerance."
            })
    static final class RunWithdraw extends Action {
        @Parameters(paramLabel = "RUN", description = "Id of the run; panelbook run list shows them.")
        String run = "";

        @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "What the mistake was.")
        String reason = "";

        @Option(
                names = "--onto",
                paramLabel = "PRESET",
                description = "The preset it was taken on: ROOM/DISPLAY/PRESET or id.")
        @Nullable
        String onto;

        @Override
        int work() {
            printer().checkFields(WithdrawnRun.class);
            var id = Names.id("a run", run);
            var to = onto == null ? null : names().preset(onto);
            var is = service().get(Run.class, "/runs/" + id);
            printer()
                    .say("Withdrawing the " + is.purpose() + " run of " + is.preset() + ", taken " + is.takenAt()
                            + (to == null ? "." : ", and entering it on " + Paths.of(to) + "."));
            var mended = service()
                    .post(
                            WithdrawnRun.class,
                            "/runs/" + id + "/withdrawal",
                            new RunWithdrawalDraft(reason, to == null ? null : to.id()))
                    .value();
            if (printer().isJson()) {
                printer().one(WithdrawnRun.class, mended, List.of());
            } else {
                printer().list(Row.class, rows(mended), COLUMNS);
            }
            return code(mended.judgedAnew());
        }

        private static List<Row> rows(WithdrawnRun mended) {
            var run = mended.run();
            var rows = new ArrayList<Row>();
            rows.add(new Row("run", "withdrawn", run.preset(), "run " + run.id()));
            var withdrawn = run.withdrawn();
            var verdict = mended.verdict();
            if (verdict != null) {
                rows.add(entered(verdict));
            } else if (withdrawn != null && withdrawn.replacedBy() != null) {
                rows.add(new Row("run", "there already", "", "run " + withdrawn.replacedBy()));
            }
            rows.addAll(judged(mended.judgedAnew(), mended.alerts()));
            return rows;
        }

        private static Row entered(RunVerdict verdict) {
            return new Row(
                    "run",
                    "entered",
                    verdict.preset(),
                    verdict.decision() + "; " + verdict.baselineNote() + " run " + verdict.runId());
        }
    }

    @Command(
            footer = {
                "  panelbook match withdraw 7d7f2b0c-0000-4000-8000-55aa10f0c3e1 \\",
                "    --reason \"Jo sat in, not Mara\" --operator Jo",
                "  panelbook match withdraw 7d7f2b0c-0000-4000-8000-55aa10f0c3e1 --reason \"wrong pair\""
            },
            description = {
                "",
                "The match stays in the history and is in force for nobody any longer; the one that it had replaced is in force "
                        + "again. Both presets are judged anew.",
                "",
                "With --operator, the same match is entered again for that operator, with its trims, runs and time. Exit code 3 "
                        + "when something that was judged anew is beyond tolerance."
            })
    static final class MatchWithdraw extends Action {
        @Parameters(paramLabel = "MATCH", description = "Id of the match; panelbook match list shows them.")
        String match = "";

        @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "What the mistake was.")
        String reason = "";

        @Option(names = "--operator", paramLabel = "NAME", description = "Whom it was signed for.")
        @Nullable
        String operator;

        @Override
        int work() {
            printer().checkFields(WithdrawnMatch.class);
            var id = Names.id("a match", match);
            var is = service().get(Match.class, "/matches/" + id);
            printer()
                    .say("Withdrawing the match of " + is.follower() + " to " + is.hero() + " for " + is.operator()
                            + ", signed " + is.signedAt()
                            + (operator == null ? "." : ", and entering it for " + operator + "."));
            var mended = service()
                    .post(
                            WithdrawnMatch.class,
                            "/matches/" + id + "/withdrawal",
                            new MatchWithdrawalDraft(reason, operator))
                    .value();
            if (printer().isJson()) {
                printer().one(WithdrawnMatch.class, mended, List.of());
            } else {
                printer().list(Row.class, rows(mended), COLUMNS);
            }
            return code(mended.judgedAnew());
        }

        private static List<Row> rows(WithdrawnMatch mended) {
            var rows = new ArrayList<Row>();
            rows.add(row("withdrawn", mended.match()));
            var replacement = mended.replacement();
            if (replacement != null) {
                rows.add(row("entered", replacement));
            }
            rows.addAll(judged(mended.judgedAnew(), mended.alerts()));
            return rows;
        }

        private static Row row(String state, Match match) {
            return new Row(
                    "match",
                    state,
                    match.follower(),
                    "for " + match.operator() + (match.inForce() ? ", in force" : "") + "; match " + match.id());
        }
    }

    @Command(
            footer = {
                "  panelbook display merge \"Client bis\" --into Client --reason \"one plate, entered twice\"",
                "  panelbook display merge \"Client bis\" --into Client --reason \"one plate\" \\",
                "    --preset \"HDR old=HDR\""
            },
            description = {
                "",
                "The runs and matches of the duplicate are entered again on the display to keep, in the order of time, as are its "
                        + "quirks and panel hours; where it is a hero, the kept one takes over. Then the duplicate is retired. Its "
                        + "own record stays, marked.",
                "",
                "Presets go together by name and must be for one target; --preset says where names differ. All or nothing: what "
                        + "does not fit is listed and nothing is changed. Exit code 3 when something that was judged anew is beyond "
                        + "tolerance."
            })
    static final class DisplayMerge extends Action {
        @Parameters(paramLabel = "DUPLICATE", description = "The display to give up: name, ROOM/DISPLAY or id.")
        String duplicate = "";

        @Option(
                names = "--into",
                required = true,
                paramLabel = "DISPLAY",
                description = "The display to keep: name, ROOM/DISPLAY or id.")
        String into = "";

        @Option(
                names = "--reason",
                required = true,
                paramLabel = "TEXT",
                description = "How it is known that they are one.")
        String reason = "";

        @Option(
                names = "--preset",
                paramLabel = "FROM=TO",
                description =
                        "Name of a preset of the duplicate and its name on the display to keep; may be given often.")
        List<String> presets = new ArrayList<>();

        @Override
        int work() {
            printer().checkFields(MergedDisplay.class);
            var from = names().display(duplicate);
            var to = names().display(into);
            var pairs = presets.stream().map(pair -> pair(pair, from, to)).toList();
            printer()
                    .say("Merging " + Paths.of(from) + " into " + Paths.of(to)
                            + ": its runs and matches go there, and it is" + " retired.");
            var merged = service()
                    .post(
                            MergedDisplay.class,
                            "/displays/" + from.id() + "/merger",
                            new MergerDraft(to.id(), pairs, reason))
                    .value();
            if (printer().isJson()) {
                printer().one(MergedDisplay.class, merged, List.of());
            } else {
                printer().list(Row.class, rows(merged), COLUMNS);
            }
            return code(merged.judgedAnew());
        }

        private MergerDraft.PresetPair pair(String text, Display from, Display to) {
            var equals = text.indexOf('=');
            if (equals <= 0 || equals == text.length() - 1) {
                throw Failure.usage("--preset \"" + text + "\" is not FROM=TO, such as \"HDR old=HDR\".");
            }
            return new MergerDraft.PresetPair(
                    preset(from, text.substring(0, equals)), preset(to, text.substring(equals + 1)));
        }

        private UUID preset(Display display, String name) {
            return service().pages(Preset.class, "/presets?retired=true&display=" + display.id(), 500).items().stream()
                    .filter(preset -> preset.name().equals(name))
                    .findFirst()
                    .orElseThrow(() -> Failure.failed("There is no preset \"" + name + "\" on " + Paths.of(display)
                            + ". Next: panelbook display show " + Words.quoted(Paths.of(display))))
                    .id();
        }

        private static List<Row> rows(MergedDisplay merged) {
            var rows = new ArrayList<Row>();
            rows.add(new Row(
                    "display",
                    "retired",
                    merged.duplicate().name(),
                    "display " + merged.duplicate().id()));
            merged.presets()
                    .forEach(preset -> rows.add(new Row(
                            "preset",
                            "merged",
                            preset.to(),
                            preset.runs() + " runs and " + preset.matches() + " matches of " + preset.from()
                                    + (preset.hero() ? "; it is the hero now" : ""))));
            rows.add(new Row(
                    "display",
                    "kept",
                    merged.kept().name(),
                    merged.quirks() + " quirks and " + merged.panelHours() + " values of the counter came along"));
            rows.addAll(judged(merged.judgedAnew(), merged.alerts()));
            return rows;
        }
    }

    private static List<Row> judged(List<JudgedAnew> presets, List<AlertNotice> alerts) {
        var rows = new ArrayList<Row>();
        presets.forEach(preset -> rows.add(new Row(
                "judged anew",
                preset.runId() == null ? "unmeasured" : preset.decision(),
                preset.preset(),
                preset.baselineRunId() == null
                        ? "no baseline"
                        : "baseline " + preset.baselineRunId() + ", taken " + preset.baselineAt())));
        alerts.forEach(alert -> rows.add(new Row(
                "alert",
                alert.event(),
                alert.cause().toString(),
                alert.subject() + ": " + alert.headline() + "; alert " + alert.alertId())));
        return rows;
    }

    private static int code(List<JudgedAnew> presets) {
        return presets.stream().anyMatch(preset -> preset.decision() == Decision.BEYOND)
                ? ExitCode.BEYOND
                : ExitCode.DONE;
    }
}
