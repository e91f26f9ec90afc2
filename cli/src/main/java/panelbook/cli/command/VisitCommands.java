package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Visit;
import panelbook.wire.VisitDraft;
import panelbook.wire.VisitDrop;
import panelbook.wire.VisitMove;
import panelbook.wire.VisitPin;
import panelbook.wire.VisitState;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on visits. */
final class VisitCommands {

    static final String PATH = "/visits";
    private static final String VISIT =
            "Id of the visit, or ROOM or FACILITY/ROOM for the next one there; for done the first one.";
    private static final String INSIST =
            "Lay it there although a booking, an absence, working hours or a proposed visit speaks against it; needs --reason.";
    private static final String TIME = "Start of the work: 2027-03-09T10:00 by the room's clock, or with an offset.";

    private VisitCommands() {}

    static View<Visit> view() {
        return new View<>(Visit.class, columns(), fields());
    }

    private static List<Column<Visit>> columns() {
        return List.of(
                of("DAY", v -> VisitText.day(v.startsAt(), v.timeZone())),
                of("FROM", v -> VisitText.clock(v.startsAt(), v.timeZone())),
                of("TO", v -> VisitText.clock(v.endsAt(), v.timeZone())),
                of("ROOM", Visit::room),
                of("CALIBRATOR", Visit::calibrator),
                of("STATE", Visit::state),
                of("PINNED", Visit::pinned),
                of("ID", Visit::id),
                of("TEXT", VisitText::summary));
    }

    private static List<Column<Visit>> fields() {
        return List.of(
                of("ROOM", Visit::room),
                of("CALIBRATOR", Visit::calibrator),
                of("STATE", Visit::state),
                of("PINNED", Visit::pinned),
                of("SWITCH ON", v -> VisitText.time(v.warmUpFrom(), v.timeZone())),
                of("FROM", v -> VisitText.time(v.startsAt(), v.timeZone())),
                of("TO", v -> VisitText.time(v.endsAt(), v.timeZone())),
                of("TIME ZONE", Visit::timeZone),
                of("REASON", Visit::reason),
                of("CHANGED BY", Visit::changedBy),
                of("ID", Visit::id));
    }

    /** A command on one visit. */
    abstract static class OfOne extends Action {
        @Parameters(paramLabel = "VISIT", description = VISIT)
        String visit = "";

        final Visit visit() {
            printer().checkFields(Visit.class);
            return VisitCommands.find(this, visit);
        }

        final int said(String what, Object body, Visit of, String said) {
            var now = service().post(Visit.class, PATH + "/" + of.id() + what, body, of.version());
            printer().list(Visit.class, List.of(now), view().columns());
            printer()
                    .say(said + " the visit to " + now.room() + " on " + VisitText.time(now.startsAt(), now.timeZone())
                            + ".");
            now.remarks().forEach(remark -> printer().say("Mind: " + remark));
            return 0;
        }
    }

    /** By id, or the next one in a room; where none lies ahead, the first that was left open. */
    private static Visit find(Action action, String reference) {
        return find(action, reference, action.at().clock().instant());
    }

    /** By id, or the first one in a room that is neither done nor dropped and ends after a time, or at any when none does. */
    private static Visit find(Action action, String reference, Instant from) {
        if (Names.isId(reference)) {
            return action.service().get(Visit.class, PATH + "/" + reference);
        }
        var room = action.names().room(reference);
        var open = PATH + "?room=" + room.id() + "&state=proposed&state=confirmed&limit=1";
        return Stream.of(Service.with(open, "from", from.toString()), open)
                .flatMap(path -> action.service().page(Visit.class, path).items().stream())
                .findFirst()
                .orElseThrow(() -> Failure.failed("No visit to " + Paths.of(room)
                        + " is proposed or confirmed. Next: panelbook plan --propose, or panelbook visit add --help"));
    }

    /** A time by a room's clock, which shows some times never and some twice. */
    private static Instant atClock(String option, LocalDateTime local, ZoneId zone) {
        var offsets = zone.getRules().getValidOffsets(local);
        if (offsets.isEmpty()) {
            throw Failure.usage(option + " " + local + " is no time in " + zone
                    + ": the clocks go forward over it. Choose another.");
        }
        if (offsets.size() > 1) {
            throw Failure.usage(option + " " + local + " comes twice in " + zone + ", since the clocks go back: write "
                    + local.atOffset(offsets.get(0)) + " or " + local.atOffset(offsets.get(1)) + ".");
        }
        return local.toInstant(offsets.get(0));
    }

    private static Instant time(String option, String text, String zone) {
        try {
            return atClock(option, LocalDateTime.parse(text), ZoneId.of(zone));
        } catch (DateTimeException e) {
            return withOffset(option, text);
        }
    }

    private static Instant withOffset(String option, String text) {
        try {
            return OffsetDateTime.parse(text).toInstant();
        } catch (DateTimeException e) {
            throw Failure.usage(option + " \"" + text
                    + "\" is not a time such as 2027-03-09T10:00 by the room's clock, or 2027-03-09T10:00:00+01:00.");
        }
    }

    @Command(
            footer = {
                "  panelbook visit add \"Suite 1\" --calibrator Mara --at 2027-03-09T10:00",
                "  panelbook visit add \"Suite 1\" --calibrator Mara --at 2027-03-09T20:00 --preset \"Suite 1/Main/HDR\" "
                        + "--insist --reason \"the client leaves at eight\""
            },
            description = {
                "",
                "Confirmed and pinned. Without --preset all that is due by then is done; a hero takes the matches of its followers "
                        + "along."
            })
    static final class Add extends Action {
        @Parameters(paramLabel = "ROOM", description = "ROOM, FACILITY/ROOM or id.")
        String room = "";

        @Option(names = "--calibrator", required = true, paramLabel = "CALIBRATOR", description = "Who comes.")
        String calibrator = "";

        @Option(names = "--at", required = true, paramLabel = "TIME", description = TIME)
        String at = "";

        @Option(
                names = "--preset",
                paramLabel = "PRESET",
                description = "To be recalibrated: ROOM/DISPLAY/PRESET or id; may be given more than once.")
        List<String> presets = new ArrayList<>();

        @Option(names = "--minutes", paramLabel = "N", description = "Of the work (default: what it usually takes).")
        @Nullable
        Integer minutes;

        @Option(names = "--insist", description = INSIST)
        boolean insist;

        @Option(names = "--reason", paramLabel = "TEXT", description = "Why; kept with the visit.")
        @Nullable
        String reason;

        @Override
        int work() {
            printer().checkFields(Visit.class);
            var in = names().room(room);
            var who = names().calibrator(calibrator);
            var start = time("--at", at, in.timeZone());
            var chosen =
                    presets.stream().map(preset -> names().preset(preset).id()).toList();
            var draft = new VisitDraft(
                    addedId(in.id(), who.id(), start), in.id(), who.id(), start, chosen, minutes, reason, insist);
            var added = service().post(Visit.class, PATH, draft);
            return added(
                    view(),
                    added,
                    "visit to " + added.value().room(),
                    "panelbook visit show " + added.value().id());
        }

        /** Typed again after a lost answer it is the same visit; after that was dropped it is another. */
        private UUID addedId(UUID roomId, UUID calibratorId, Instant start) {
            var dropped = service()
                    .pages(Visit.class, PATH + "?room=" + roomId + "&state=dropped", 500)
                    .items()
                    .size();
            return idOf("visit", roomId, calibratorId, start, dropped);
        }
    }

    @Command(
            footer = {
                "  panelbook visit list",
                "  panelbook visit list --calibrator Mara --until 2027-03-31",
                "  panelbook visit list --room \"Suite 1\" --state done"
            })
    static final class ListAll extends Listing<Visit> {
        @Option(names = "--room", paramLabel = "ROOM", description = "Only to this room.")
        @Nullable
        String room;

        @Option(names = "--facility", paramLabel = "FACILITY", description = "Only to rooms of this facility.")
        @Nullable
        String facility;

        @Option(names = "--calibrator", paramLabel = "CALIBRATOR", description = "Only of this calibrator.")
        @Nullable
        String calibrator;

        @Option(names = "--from", paramLabel = "TIME", description = "From this time or day on.")
        @Nullable
        String from;

        @Option(names = "--until", paramLabel = "TIME", description = "Up to this time, or the end of this day, UTC.")
        @Nullable
        String until;

        @Option(
                names = "--state",
                paramLabel = "STATE",
                description =
                        "proposed, confirmed, done or dropped; may be given more than once (default: all but dropped).")
        List<String> states = new ArrayList<>();

        @Override
        View<Visit> view() {
            return VisitCommands.view();
        }

        @Override
        String path() {
            var path = PATH;
            for (var state : states.isEmpty() ? List.of("proposed", "confirmed", "done") : states) {
                path = with(
                        path,
                        "state",
                        Words.one(VisitState.class, "--state", state).toString());
            }
            path = Service.with(
                    path, "room", room == null ? null : names().room(room).id().toString());
            path = Service.with(
                    path,
                    "facility",
                    facility == null ? null : names().facility(facility).id().toString());
            path = Service.with(
                    path,
                    "calibrator",
                    calibrator == null
                            ? null
                            : names().calibrator(calibrator).id().toString());
            path = Service.with(
                    path,
                    "from",
                    from == null ? null : Words.timeOrStartOfDay("--from", from).toString());
            return Service.with(
                    path,
                    "until",
                    until == null
                            ? null
                            : Words.timeOrEndOfDay("--until", until).toString());
        }

        @Override
        String none() {
            return "There is no such visit. Next: panelbook plan --propose";
        }
    }

    @Command(footer = {"  panelbook visit show \"Suite 1\"", "  panelbook visit show \"Suite 1\" --json"})
    static final class Show extends Showing<Visit> {
        @Parameters(paramLabel = "VISIT", description = VISIT)
        String visit = "";

        @Override
        View<Visit> view() {
            return VisitCommands.view();
        }

        @Override
        Visit thing() {
            return find(this, visit);
        }

        @Override
        List<String> below(Visit visit) {
            var lines = new ArrayList<String>();
            visit.work()
                    .forEach(work -> lines.add("WORK\t" + work.work() + "\t" + work.minutes() + " min\t" + work.preset()
                            + (work.hero() ? " (hero)" : "") + "\t" + work.why()));
            visit.remarks().forEach(remark -> lines.add("MIND\t" + remark));
            return lines;
        }
    }

    @Command(
            footer = "  panelbook visit confirm \"Suite 1\"",
            description = {"", "No plan moves it from then on."})
    static final class Confirm extends OfOne {
        @Override
        int work() {
            return said("/confirmation", Map.of(), visit(), "Confirmed");
        }
    }

    @Command(
            footer = {
                "  panelbook visit move \"Suite 1\" --to 2027-03-09T14:00",
                "  panelbook visit move \"Suite 1\" --calibrator Ivo --insist --reason \"Mara is ill\""
            })
    static final class Move extends OfOne {
        @Option(names = "--to", paramLabel = "TIME", description = TIME)
        @Nullable
        String to;

        @Option(names = "--calibrator", paramLabel = "CALIBRATOR", description = "Who comes instead.")
        @Nullable
        String calibrator;

        @Option(names = "--insist", description = INSIST)
        boolean insist;

        @Option(names = "--reason", paramLabel = "TEXT", description = "Why; kept with the visit.")
        @Nullable
        String reason;

        @Override
        int work() {
            requireAny(to, calibrator);
            var old = visit();
            var start = to == null ? old.startsAt() : time("--to", to, old.timeZone());
            var who = calibrator == null ? null : names().calibrator(calibrator).id();
            return said("/move", new VisitMove(start, who, reason, insist), old, "Moved and pinned");
        }
    }

    @Command(footer = "  panelbook visit pin \"Suite 1\"")
    static final class Pin extends OfOne {
        @Override
        int work() {
            return said("/pin", new VisitPin(true), visit(), "Pinned");
        }
    }

    @Command(
            footer = "  panelbook visit unpin \"Suite 1\"",
            description = {"", "A visit that is confirmed stays where it is all the same."})
    static final class Unpin extends OfOne {
        @Override
        int work() {
            return said("/pin", new VisitPin(false), visit(), "Unpinned");
        }
    }

    @Command(
            footer = "  panelbook visit done \"Suite 1\"",
            description = {"", "Not needed when all its as-left runs and sign-offs came in: then it is done by itself."
            })
    static final class Done extends OfOne {
        @Override
        int work() {
            printer().checkFields(Visit.class);
            // the one that was made, not the next
            return said("/done", Map.of(), find(this, visit, Instant.EPOCH), "Done:");
        }
    }

    @Command(footer = "  panelbook visit drop \"Suite 1\" --reason \"the room is being rebuilt\"")
    static final class Drop extends OfOne {
        @Option(names = "--reason", paramLabel = "TEXT", description = "Why; kept with the visit.")
        @Nullable
        String reason;

        @Override
        int work() {
            return said("/drop", new VisitDrop(reason), visit(), "Dropped");
        }
    }
}
