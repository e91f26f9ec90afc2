package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.List;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.FacilityReadiness;
import panelbook.wire.Hero;
import panelbook.wire.HeroDraft;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.ReadinessSpan;
import panelbook.wire.ReadinessState;
import panelbook.wire.Reason;
import panelbook.wire.Room;
import panelbook.wire.RoomDraft;
import panelbook.wire.RoomReadiness;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on rooms. */
final class RoomCommands {

    private static final String ROOM = "ROOM, FACILITY/ROOM or id.";
    private static final String ZONE = "IANA name of the time zone";

    private RoomCommands() {}

    @Command(footer = "  panelbook room add \"Suite 1\" --facility North")
    static final class Add extends Action {
        @Parameters(paramLabel = "NAME", description = "Name; unique in the facility.")
        String name = "";

        @Option(
                names = "--facility",
                required = true,
                paramLabel = "FACILITY",
                description = "Name or id of its facility.")
        String facility = "";

        @Option(names = "--time-zone", paramLabel = "ZONE", description = ZONE + " (default: the facility's).")
        @Nullable
        String timeZone;

        @Override
        int work() {
            var zone = timeZone == null ? null : Words.zone("--time-zone", timeZone);
            var in = names().facility(facility);
            var added = addOnce(
                    idOf("room", in.id(), name),
                    id -> service().post(Room.class, "/rooms", new RoomDraft(id, in.id(), name, zone)),
                    () -> exists(() -> names().room(in.name() + "/" + name)));
            var path = Paths.of(added.value());
            return added(
                    Views.rooms(), added, "room " + path, "panelbook display add NAME --room " + Words.quoted(path));
        }
    }

    @Command(footer = {"  panelbook room list", "  panelbook room list --facility North"})
    static final class ListAll extends ListingOfKept<Room> {
        @Option(names = "--facility", paramLabel = "FACILITY", description = "Only rooms of this facility.")
        @Nullable
        String facility;

        @Override
        View<Room> view() {
            return Views.rooms();
        }

        @Override
        String path() {
            var path = kept("/rooms");
            return facility == null
                    ? path
                    : with(path, "facility", names().facility(facility).id().toString());
        }

        @Override
        String none() {
            return "There is no room. Next: panelbook room add NAME --facility FACILITY";
        }
    }

    @Command(footer = "  panelbook room show \"Suite 1\"")
    static final class Show extends Showing<Room> {
        @Parameters(paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Override
        View<Room> view() {
            return Views.rooms();
        }

        @Override
        Room thing() {
            return names().room(room);
        }
    }

    @Command(footer = "  panelbook room edit \"Suite 1\" --name \"Suite 1 West\"")
    static final class Edit extends Action {
        @Parameters(paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Option(names = "--name", paramLabel = "NAME", description = "New name.")
        @Nullable
        String name;

        @Option(names = "--time-zone", paramLabel = "ZONE", description = ZONE + ".")
        @Nullable
        String timeZone;

        @Override
        int work() {
            requireAny(name, timeZone);
            var zone = timeZone == null ? null : Words.zone("--time-zone", timeZone);
            var old = names().room(room);
            var draft = new RoomDraft(old.id(), old.facilityId(), or(name, old.name()), or(zone, old.timeZone()));
            var edited = service().put(Room.class, "/rooms/" + old.id(), draft, old.version());
            return changed(Views.rooms(), edited, "Changed room " + Paths.of(edited), "");
        }
    }

    @Command(footer = "  panelbook room retire \"Suite 1\" --reason \"became a store room\"")
    static final class Retire extends Retiring<Room> {
        @Parameters(paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Override
        View<Room> view() {
            return Views.rooms();
        }

        @Override
        String collection() {
            return "/rooms";
        }

        @Override
        UUID thingId() {
            return names().room(room).id();
        }

        @Override
        String name() {
            return "room " + room;
        }
    }

    @Command(
            footer = {"  panelbook room readiness \"Suite 1\"", "  panelbook room readiness --facility North"},
            description = {
                "",
                "Answers ready, ready-with-remarks or not-ready, with the reasons. Exit code 3 when a room is not ready."
            })
    static final class Readiness extends Action {
        @Parameters(paramLabel = "ROOM", arity = "0..1", description = ROOM)
        @Nullable
        String room;

        @Option(names = "--facility", paramLabel = "FACILITY", description = "All rooms of this facility, worst first.")
        @Nullable
        String facility;

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        int work() {
            if (room == null && facility == null) {
                throw Failure.usage("Name a room, or a facility by --facility.");
            }
            return room != null ? ofRoom(room) : ofFacility(or(facility, ""));
        }

        private int ofRoom(String name) {
            printer().checkFields(RoomReadiness.class);
            var reference = facility == null ? name : facility + "/" + name;
            var id = names().room(reference).id();
            var readiness = service().get(RoomReadiness.class, Past.of("/rooms/" + id + "/readiness", asOf));
            if (printer().isJson()) {
                printer().one(RoomReadiness.class, readiness, List.of());
            } else {
                print(readiness);
            }
            return code(readiness.state());
        }

        private int ofFacility(String name) {
            printer().checkFields(FacilityReadiness.class);
            var id = names().facility(name).id();
            var readiness = service().get(FacilityReadiness.class, Past.of("/facilities/" + id + "/readiness", asOf));
            if (printer().isJson()) {
                printer().one(FacilityReadiness.class, readiness, List.of());
            } else {
                printer()
                        .list(
                                Row.class,
                                readiness.rooms().stream()
                                        .flatMap(r -> rows(r).stream())
                                        .toList(),
                                COLUMNS);
            }
            return readiness.notReady() > 0 ? ExitCode.BEYOND : ExitCode.DONE;
        }

        private void print(RoomReadiness readiness) {
            printer().list(Row.class, rows(readiness), COLUMNS);
        }

        private static int code(ReadinessState state) {
            return state == ReadinessState.NOT_READY ? ExitCode.BEYOND : ExitCode.DONE;
        }

        /** A reason, or a room without one. */
        record Row(
                String room, ReadinessState state, @Nullable Reason reason) {}

        private static final List<Column<Row>> COLUMNS = List.of(
                of("ROOM", Row::room),
                of("READINESS", Row::state),
                of("WEIGHT", r -> r.reason() == null ? null : r.reason().weight()),
                of("REASON", r -> r.reason() == null ? null : r.reason().code()),
                of("WHERE", r -> where(r.reason())),
                of("SINCE", r -> r.reason() == null ? null : r.reason().since()),
                of("TEXT", r -> r.reason() == null ? null : r.reason().text()));

        private static @Nullable Object where(@Nullable Reason reason) {
            if (reason == null || reason.display() == null) {
                return null;
            }
            return reason.preset() == null ? reason.display() : reason.display() + "/" + reason.preset();
        }

        private static List<Row> rows(RoomReadiness readiness) {
            var path = readiness.facility() + "/" + readiness.room();
            return readiness.reasons().isEmpty()
                    ? List.of(new Row(path, readiness.state(), null))
                    : readiness.reasons().stream()
                            .map(reason -> new Row(path, readiness.state(), reason))
                            .toList();
        }
    }

    @Command(
            footer = {
                "  panelbook room history \"Suite 1\"",
                "  panelbook room history \"Suite 1\" --from 2026-01-01 --until 2026-03-31 > states.tsv"
            },
            description = {
                "",
                "One line for each time over which the room stayed as it was, with the reasons and with what made it so, as the "
                        + "service said it at each moment."
            })
    static final class History extends Action {
        @Parameters(paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Option(
                names = "--from",
                paramLabel = "TIME",
                description = "A time, or a day for its start in UTC (default: thirty days before the end).")
        @Nullable
        String from;

        @Option(
                names = "--until",
                paramLabel = "TIME",
                description = "A time, or a day for its end in UTC (default: now).")
        @Nullable
        String until;

        @Override
        int work() {
            printer().checkFields(ReadinessHistory.class);
            var path = "/rooms/" + names().room(room).id() + "/readiness-history";
            if (from != null) {
                path = Service.with(
                        path, "from", Words.timeOrStartOfDay("--from", from).toString());
            }
            if (until != null) {
                path = Service.with(
                        path, "to", Words.timeOrEndOfDay("--until", until).toString());
            }
            var history = service().get(ReadinessHistory.class, path);
            if (printer().isJson()) {
                printer().one(ReadinessHistory.class, history, List.of());
            } else {
                printer().list(ReadinessSpan.class, history.spans(), SPANS);
            }
            return ExitCode.DONE;
        }

        private static final List<Column<ReadinessSpan>> SPANS = List.of(
                of("FROM", ReadinessSpan::from),
                of("UNTIL", ReadinessSpan::to),
                of("READINESS", ReadinessSpan::state),
                of("REASONS", span -> span.reasons().stream().map(History::told).collect(Collectors.joining("; "))),
                of(
                        "CHANGED BY",
                        span -> span.changes().stream()
                                .map(change -> change.text() + (change.by() == null ? "" : " (" + change.by() + ")"))
                                .collect(Collectors.joining("; "))));

        private static String told(Reason reason) {
            return (reason.display() == null ? "" : reason.display() + ": ") + reason.text();
        }
    }

    @Command(
            footer = "  panelbook room hero name \"Suite 1\" \"Suite 1/Main/HDR\"",
            description = {"", "The preset becomes the one that others of its target in this room are matched to."})
    static final class HeroName extends Action {
        @Parameters(index = "0", paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Parameters(index = "1", paramLabel = "PRESET", description = "ROOM/DISPLAY/PRESET or id.")
        String preset = "";

        @Option(
                names = "--from",
                paramLabel = "TIME",
                description = "Since when, such as 2026-03-31T08:00:00Z (default: now).")
        @Nullable
        String from;

        @Override
        int work() {
            var since = from == null ? null : Words.time("--from", from);
            var in = names().room(room);
            var chosen = names().preset(preset);
            var hero = service()
                    .post(Hero.class, "/rooms/" + in.id() + "/heroes", new HeroDraft(chosen.id(), since))
                    .value();
            return changed(
                    Views.heroes(),
                    hero,
                    Paths.of(chosen) + " is the hero of " + Paths.of(in) + " for " + hero.target(),
                    "panelbook match sign-off --hero " + Words.quoted(Paths.of(chosen))
                            + " --follower PRESET --operator NAME");
        }
    }

    @Command(footer = {"  panelbook room hero list \"Suite 1\"", "  panelbook room hero list \"Suite 1\" --history"})
    static final class HeroList extends Action {
        @Parameters(paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Option(names = "--history", description = "Also those that no longer are.")
        boolean history;

        @Override
        int work() {
            printer().checkFields(Hero.class);
            var path = "/rooms/" + names().room(room).id() + "/heroes" + (history ? "?history=true" : "");
            printer()
                    .list(
                            Hero.class,
                            service().list(Hero.class, path),
                            Views.heroes().columns());
            return 0;
        }
    }
}
