package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Column;
import panelbook.wire.Match;
import panelbook.wire.RoomTrims;
import panelbook.wire.Trim;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on trims. */
final class TrimCommands {

    private TrimCommands() {}

    /** One control of one match; without control when nothing is trimmed. */
    record Row(Match match, @Nullable Trim trim) {}

    private static final List<Column<Row>> COLUMNS = List.of(
            of("OPERATOR", r -> r.match().operator()),
            of("FOLLOWER", r -> r.match().follower()),
            of("CONTROL", r -> r.trim() == null ? "none" : r.trim().control()),
            of("LEVEL", r -> r.trim() == null ? null : r.trim().level()),
            of("CLICKS", r -> r.trim() == null ? 0 : r.trim().clicks()),
            of("SIGNED", r -> r.match().signedAt()),
            of("STATE", r -> r.match().inForce() ? "in force" : "replaced"),
            of("IN QUESTION", r -> r.match().inQuestion()));

    @Command(
            footer = {"  panelbook trim show \"Suite 1\"", "  panelbook trim show \"Suite 1\" --operator Mara"},
            description = {"", "One line per control, those in force first, then the replaced ones, newest first."})
    static final class Show extends Action {
        @Parameters(paramLabel = "ROOM", description = "ROOM, FACILITY/ROOM or id.")
        String room = "";

        @Option(names = "--operator", paramLabel = "NAME", description = "Only of this operator.")
        @Nullable
        String operator;

        @Option(names = "--in-force", description = "Without the history.")
        boolean inForceOnly;

        @Override
        int work() {
            printer().checkFields(RoomTrims.class);
            var trims = service()
                    .get(RoomTrims.class, "/rooms/" + names().room(room).id() + "/trims");
            if (printer().isJson()) {
                printer().one(RoomTrims.class, trims, List.of());
                return 0;
            }
            var matches = new ArrayList<>(trims.inForce());
            if (!inForceOnly) {
                matches.addAll(trims.history());
            }
            var rows = matches.stream()
                    .filter(m -> operator == null || m.operator().equals(operator))
                    .flatMap(Show::rows)
                    .toList();
            printer().list(Row.class, rows, COLUMNS);
            if (rows.isEmpty()) {
                printer().say("No match was signed off here yet. Next: panelbook match sign-off --help");
            }
            return 0;
        }

        private static Stream<Row> rows(Match match) {
            return match.trims().isEmpty()
                    ? Stream.of(new Row(match, null))
                    : match.trims().stream().map(trim -> new Row(match, trim));
        }
    }
}
