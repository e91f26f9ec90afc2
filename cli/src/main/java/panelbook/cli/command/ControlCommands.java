package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.StepText;
import panelbook.cli.service.Paths;
import panelbook.wire.ControlRange;
import panelbook.wire.ControlRangeDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on how far the controls of a display go. */
final class ControlCommands {

    private static final String DISPLAY = "DISPLAY, ROOM/DISPLAY, FACILITY/ROOM/DISPLAY or id.";

    private ControlCommands() {}

    static View<ControlRange> view() {
        return View.of(
                ControlRange.class,
                List.of(
                        of("CONTROL", ControlRange::control),
                        of("LEVEL", ControlRange::level),
                        of("LEAST", c -> StepText.clicks(c.least())),
                        of("MOST", c -> StepText.clicks(c.most())),
                        of("SINCE", ControlRange::recordedAt),
                        of("BY", ControlRange::recordedBy)));
    }

    @Command(
            footer = {
                "  panelbook display control set Client gain.red --least=-20 --most=10",
                "  panelbook display control set Client bias.blue --level low --least=-8 --most=8"
            },
            description = {
                "",
                "In clicks from the calibrated setting; the latest statement holds. Suggestions stay within it."
            })
    static final class Set extends Action {
        @Parameters(index = "0", paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Parameters(index = "1", paramLabel = "CONTROL", description = "Such as gain.red, black-level or saturation.")
        String control = "";

        @Option(names = "--level", paramLabel = "LEVEL", description = "Level or slot of the menu, where it has some.")
        @Nullable
        String level;

        @Option(names = "--least", required = true, paramLabel = "CLICKS", description = "Lowest setting.")
        Integer least = 0;

        @Option(names = "--most", required = true, paramLabel = "CLICKS", description = "Highest setting.")
        Integer most = 0;

        @Override
        int work() {
            printer().checkFields(ControlRange.class);
            var of = names().display(display);
            var draft = new ControlRangeDraft(control, or(level, "all"), least, most);
            var range = service()
                    .post(ControlRange.class, "/displays/" + of.id() + "/control-ranges", draft)
                    .value();
            return changed(
                    view(),
                    range,
                    "Set how far " + StepText.control(range.control(), range.level()) + " of " + Paths.of(of) + " goes",
                    "panelbook display control list " + Words.quoted(Paths.of(of)));
        }
    }

    @Command(footer = "  panelbook display control list Client")
    static final class ListAll extends Action {
        @Parameters(paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Override
        int work() {
            printer().checkFields(ControlRange.class);
            var of = names().display(display);
            var ranges = service().list(ControlRange.class, "/displays/" + of.id() + "/control-ranges");
            printer().list(ControlRange.class, ranges, view().columns());
            if (ranges.isEmpty() && at().personReadsErr()) {
                printer().say("Nobody said how far its controls go. Next: panelbook display control set --help");
            }
            return 0;
        }
    }
}
