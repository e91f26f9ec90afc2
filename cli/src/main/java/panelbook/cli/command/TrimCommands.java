package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Column;
import panelbook.wire.ClickEffect;
import panelbook.wire.Match;
import panelbook.wire.RoomTrims;
import panelbook.wire.Trim;
import panelbook.wire.TrimSuggestion;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on trims. */
final class TrimCommands {

    private TrimCommands() {}

    private static String state(Match match) {
        return match.inForce() ? "in force" : match.withdrawn() == null ? "replaced" : "withdrawn";
    }

    /** One control of one match; without control when nothing is trimmed. */
    record Row(Match match, @Nullable Trim trim) {}

    private static final List<Column<Row>> COLUMNS = List.of(
            of("OPERATOR", r -> r.match().operator()),
            of("FOLLOWER", r -> r.match().follower()),
            of("CONTROL", r -> r.trim() == null ? "none" : r.trim().control()),
            of("LEVEL", r -> r.trim() == null ? null : r.trim().level()),
            of("CLICKS", r -> r.trim() == null ? 0 : r.trim().clicks()),
            of("SIGNED", r -> r.match().signedAt()),
            of("STATE", r -> state(r.match())),
            of("IN QUESTION", r -> r.match().inQuestion()),
            of("MEASURED", r -> r.match().measured()));

    @Command(
            footer = {"  panelbook trim show \"Suite 1\"", "  panelbook trim show \"Suite 1\" --operator Mara"},
            description = {
                "",
                "One line per control, those in force first, then the replaced and withdrawn ones, newest first."
            })
    static final class Show extends Action {
        @Parameters(paramLabel = "ROOM", description = "ROOM, FACILITY/ROOM or id.")
        String room = "";

        @Option(names = "--operator", paramLabel = "NAME", description = "Only of this operator.")
        @Nullable
        String operator;

        @Option(names = "--in-force", description = "Without the history.")
        boolean inForceOnly;

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        int work() {
            printer().checkFields(RoomTrims.class);
            var trims = service()
                    .get(RoomTrims.class, Past.of("/rooms/" + names().room(room).id() + "/trims", asOf));
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

    @Command(
            footer = {
                "  panelbook trim suggest --follower \"Suite 1/Client/HDR\" --hero \"Suite 1/Main/HDR\" --operator Mara"
            },
            description = {
                "",
                "Whole clicks that bring the follower nearest to the hero and the agreed offset, or to the operator's usual offset "
                        + "between such panels where these two have none yet; with what is expected to be left, and why not less. "
                        + "Rests on the latest runs and on what clicks did in earlier matches. Changes nothing."
            })
    static final class Suggest extends Action {
        @Option(
                names = "--follower",
                required = true,
                paramLabel = "PRESET",
                description = "ROOM/DISPLAY/PRESET or id.")
        String follower = "";

        @Option(names = "--hero", required = true, paramLabel = "PRESET", description = "ROOM/DISPLAY/PRESET or id.")
        String hero = "";

        @Option(names = "--operator", required = true, paramLabel = "NAME", description = "For whose eyes.")
        String operator = "";

        @Override
        int work() {
            printer().checkFields(TrimSuggestion.class);
            var of = names().preset(follower).id();
            var to = names().preset(hero).id();
            MatchTalk.suggestion(service(), printer(), of, to, operator, null);
            return 0;
        }
    }

    @Command(
            footer = "  panelbook trim effects Client",
            description = {
                "",
                "What one click up of each control does to white, greys and black, with the interval that holds the truth with "
                        + "95 %%. Learned from readings before and after single trims, helped by displays of the same model."
            })
    static final class Effects extends Action {
        @Parameters(paramLabel = "DISPLAY", description = "DISPLAY, ROOM/DISPLAY, FACILITY/ROOM/DISPLAY or id.")
        String display = "";

        @Override
        int work() {
            printer().checkFields(ClickEffect.class);
            var path = "/displays/" + names().display(display).id() + "/click-effects";
            var effects = service().list(ClickEffect.class, path);
            printer().list(ClickEffect.class, effects, MatchText.effects().columns());
            if (effects.isEmpty() && at().personReadsErr()) {
                printer()
                        .say(
                                "Nothing is known yet. In a match, read a run before and after one trim: that teaches it.");
            }
            return 0;
        }
    }
}
