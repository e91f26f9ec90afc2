package panelbook.cli.command;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Refused;
import panelbook.cli.terminal.Failure;
import panelbook.wire.FieldProblem;
import panelbook.wire.PanelHoursAnswerDraft;
import panelbook.wire.PanelHoursAnswerKind;
import panelbook.wire.PanelHoursEntered;
import panelbook.wire.PanelHoursList;
import panelbook.wire.PanelHoursQuestion;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on panel hours of many displays, and on what is asked about them. */
final class HoursCommands {

    private static final Pattern POINTER = Pattern.compile("/values/(\\d+)/(\\w+)");

    private HoursCommands() {}

    @Command(
            footer = {"  panelbook display hours read counters.csv"},
            description = {
                "",
                "A CSV file whose first line is display,at,hours,note (note may be left out): a display by name or path, when its "
                        + "counter was read, with the offset, and what it said. All lines are entered or none; the same file again "
                        + "changes nothing. Values that do not go together are entered and asked about: display hours questions."
            })
    static final class Read extends Action {
        @Parameters(paramLabel = "FILE", description = "CSV file.")
        String file = "";

        @Override
        int work() {
            printer().checkFields(PanelHoursEntered.class);
            var read =
                    HoursCsv.read(file, bytes(), name -> names().display(name).id());
            var entered = enter(read);
            if (printer().isJson()) {
                printer().one(PanelHoursEntered.class, entered, List.of());
            } else {
                printer()
                        .list(
                                PanelHoursQuestion.class,
                                entered.questions(),
                                Views.panelHoursQuestions().columns());
            }
            printer()
                    .say("Entered " + file + ": " + entered.added() + " added, " + entered.unchanged()
                            + " there already, " + entered.questions().size() + " questions."
                            + (entered.questions().isEmpty() ? "" : " Next: panelbook display hours answer --help"));
            return 0;
        }

        private byte[] bytes() {
            try {
                return Files.readAllBytes(at().file(file));
            } catch (IOException e) {
                throw Failure.failed(file + ": " + FileReasons.of(e), e);
            }
        }

        private PanelHoursEntered enter(HoursCsv.Read read) {
            try {
                return service()
                        .post(PanelHoursEntered.class, "/panel-hours", new PanelHoursList(read.values()))
                        .value();
            } catch (Refused e) {
                @Nullable List<FieldProblem> errors = e.problem().errors();
                if (errors == null) {
                    throw e;
                }
                throw Failure.failedAt(
                        "Nothing was entered: put these right first.",
                        errors.stream().map(error -> place(read, error)).toList());
            }
        }

        private String place(HoursCsv.Read read, FieldProblem error) {
            Matcher matcher = POINTER.matcher(error.pointer());
            return matcher.matches()
                    ? file + ", line " + read.lines().get(Integer.parseInt(matcher.group(1))) + ", "
                            + matcher.group(2).replace("displayId", "display") + ": " + error.detail()
                    : error.pointer() + ": " + error.detail();
        }
    }

    @Command(
            footer = {
                "  panelbook display hours questions",
                "  panelbook display hours questions --room \"Suite 1\" --answered"
            },
            description = {
                "",
                "Counters that went back, ran faster than the clock, or said what the next value contradicts."
            })
    static final class Questions extends Listing<PanelHoursQuestion> {
        @Option(names = "--room", paramLabel = "ROOM", description = "Only this room: ROOM, FACILITY/ROOM or id.")
        @Nullable
        String room;

        @Option(names = "--display", paramLabel = "DISPLAY", description = "Only this display.")
        @Nullable
        String display;

        @Option(names = "--answered", description = "Show those that were answered, too.")
        boolean answered;

        @Override
        View<PanelHoursQuestion> view() {
            return Views.panelHoursQuestions();
        }

        @Override
        String path() {
            var path = answered ? with("/panel-hours-questions", "answered", "true") : "/panel-hours-questions";
            if (room != null) {
                path = with(path, "room", names().room(room).id().toString());
            }
            return display == null
                    ? path
                    : with(path, "display", names().display(display).id().toString());
        }

        @Override
        String none() {
            return "There is no open question about panel hours.";
        }
    }

    @Command(
            footer = {
                "  panelbook display hours answer 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 panel-replaced",
                "  panelbook display hours answer 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 typing-error --corrected 10250",
                "  panelbook display hours answer 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 typing-error --before"
            },
            description = {
                "",
                "ANSWER is panel-replaced, counter-reset, typing-error or right. A mistyped value counts no longer, stays on "
                        + "record, and the corrected one is entered in its place. Forecasts begin anew at a new panel and at a reset."
            })
    static final class Answer extends Action {
        @Parameters(
                index = "0",
                paramLabel = "QUESTION",
                description = "Id of the question; panelbook display hours questions shows it.")
        String question = "";

        @Parameters(
                index = "1",
                paramLabel = "ANSWER",
                description = "panel-replaced, counter-reset, typing-error or right.")
        String answer = "";

        @Option(names = "--corrected", paramLabel = "HOURS", description = "What the counter said in truth, h.")
        @Nullable
        String corrected;

        @Option(names = "--before", description = "It is the value before the one asked about that is mistyped.")
        boolean before;

        @Option(names = "--note", paramLabel = "TEXT", description = "A note.")
        @Nullable
        String note;

        @Override
        int work() {
            printer().checkFields(PanelHoursQuestion.class);
            var draft = new PanelHoursAnswerDraft(
                    Words.one(PanelHoursAnswerKind.class, "ANSWER", answer),
                    before,
                    corrected == null ? null : Words.number("--corrected", corrected),
                    note);
            var id = Names.id("a display hours question", question);
            var answered = service()
                    .post(PanelHoursQuestion.class, "/panel-hours-questions/" + id + "/answer", draft)
                    .value();
            return changed(
                    Views.panelHoursQuestions(),
                    answered,
                    "Answered the question on " + answered.display(),
                    "panelbook forecast show " + Words.quoted(answered.display()));
        }
    }
}
