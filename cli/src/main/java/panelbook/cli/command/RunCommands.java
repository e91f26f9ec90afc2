package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Run;
import panelbook.wire.RunVerdict;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands that look at runs. */
final class RunCommands {

    private RunCommands() {}

    @Command(
            footer = {
                "  panelbook run list --preset \"Suite 1/Main/HDR\"",
                "  panelbook run list --purpose as-left --json=id,takenAt"
            })
    static final class ListAll extends Listing<Run> {
        @Option(
                names = "--preset",
                paramLabel = "PRESET",
                description = "Only of this preset: ROOM/DISPLAY/PRESET or id.")
        @Nullable
        String preset;

        @Option(names = "--instrument", paramLabel = "INSTRUMENT", description = "Only by this instrument.")
        @Nullable
        String instrument;

        @Option(names = "--purpose", paramLabel = "PURPOSE", description = "as-found, as-left, check or match.")
        @Nullable
        String purpose;

        @Override
        View<Run> view() {
            return Views.runs();
        }

        @Override
        String path() {
            var path = "/runs";
            if (purpose != null) {
                path = with(
                        path,
                        "purpose",
                        Words.one(Purpose.class, "--purpose", purpose).toString());
            }
            if (preset != null) {
                path = with(path, "preset", names().preset(preset).id().toString());
            }
            return instrument == null
                    ? path
                    : with(
                            path,
                            "instrument",
                            names().instrument(instrument).id().toString());
        }

        @Override
        String none() {
            return "There is no such run. Next: panelbook run upload FILE";
        }
    }

    @Command(
            footer = {
                "  panelbook run show 4f1c9a52-0000-4000-8000-3d1f5a2b7c10",
                "  panelbook run show 4f1c9a52-0000-4000-8000-3d1f5a2b7c10 --readings"
            },
            description = {
                "",
                "The verdict is the one that the upload was answered with. Exit code 3 when it says beyond."
            })
    static final class Show extends Action {
        @Parameters(paramLabel = "RUN", description = "Id of the run; panelbook run list shows them.")
        String run = "";

        @Option(names = "--readings", description = "Print the readings instead: red, green, blue, X, Y, Z in cd/m².")
        boolean readings;

        @Option(
                names = "--corrected",
                description = "With --readings: as the correction of the meter that is in force gives them.")
        boolean corrected;

        @Override
        int work() {
            var id = Names.id("a run", run);
            if (corrected && !readings) {
                throw Failure.usage("--corrected goes with --readings.");
            }
            return readings
                    ? showReadings("/runs/" + id + "/readings" + (corrected ? "?corrected=true" : ""))
                    : showRun("/runs/" + id);
        }

        private int showReadings(String path) {
            printer().checkFields(ReadingEntry.class);
            var all =
                    service().pages(ReadingEntry.class, path, Integer.MAX_VALUE).items();
            printer().list(ReadingEntry.class, all, READINGS);
            return ExitCode.DONE;
        }

        private int showRun(String path) {
            printer().checkFields(Run.class);
            var shown = service().get(Run.class, path);
            printer().one(Run.class, shown, Views.runs().fields());
            var verdict = service().get(RunVerdict.class, path + "/verdict");
            return printer().isJson() ? Verdicts.code(verdict) : Verdicts.print(printer(), "verdict", verdict);
        }

        private static final List<Column<ReadingEntry>> READINGS = List.of(
                of("RED", ReadingEntry::red),
                of("GREEN", ReadingEntry::green),
                of("BLUE", ReadingEntry::blue),
                of("X", ReadingEntry::x),
                of("Y", ReadingEntry::y),
                of("Z", ReadingEntry::z));
    }
}
