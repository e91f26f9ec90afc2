package panelbook.app.board;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.web.util.HtmlUtils;
import panelbook.app.calendars.Bookings;
import panelbook.app.calendars.BusyTime;
import panelbook.app.fleet.Directory;
import panelbook.app.planning.Schedule;
import panelbook.app.readiness.Readiness;
import panelbook.app.rest.Refusal;
import panelbook.wire.Facility;
import panelbook.wire.ReadinessState;
import panelbook.wire.Reason;
import panelbook.wire.Room;
import panelbook.wire.RoomReadiness;

/** Rooms from the worst to the best. */
@Component
class RoomLists {

    /** So many are told in full; those after them by name alone, so that a page of 2,000 rooms stays small and can be read. */
    static final int IN_FULL = 200;

    private static final int LONGEST_REASON = 160;

    private final Directory directory;
    private final Readiness readiness;
    private final Bookings bookings;
    private final Schedule schedule;
    private final Clock clock;

    RoomLists(Directory directory, Readiness readiness, Bookings bookings, Schedule schedule, Clock clock) {
        this.directory = directory;
        this.readiness = readiness;
        this.bookings = bookings;
        this.schedule = schedule;
        this.clock = clock;
    }

    /**
     * Which rooms are asked for.
     *
     * @param text part of the room's name, in any case; empty for all
     * @param reason code of a reason that the room is to have; empty for any
     * @param skip how many of the rooms to leave out, the worst first
     */
    record Filter(@Nullable UUID facility, @Nullable ReadinessState state, String text, String reason, int skip) {

        public boolean narrows() {
            return state != null || !text.isEmpty() || !reason.isEmpty();
        }
    }

    /**
     * A room told in full.
     *
     * @param since when the gravest of its reasons began; null when it has none that tells
     * @param why the first reason
     * @param more how many other reasons there are
     * @param booking under way or next
     * @param visit under way or next
     */
    record Line(
            UUID id,
            String name,
            String facility,
            ZoneId zone,
            ReadinessState state,
            @Nullable Instant since,
            String why,
            int more,
            @Nullable BusyTime booking,
            Schedule.@Nullable Next visit) {}

    /** Rooms of one state that are told by name alone. */
    record Named(ReadinessState state, List<RoomReadiness> rooms) {

        /**
         * Items of a list with a link each; made here, since the template engine takes a third of the page's time for thousands.
         *
         * @param to address of the rooms
         * @param back query that goes with each link, or nothing
         */
        public String links(String to, String back) {
            var all = new StringBuilder();
            for (var room : rooms) {
                all.append("<li><a href=\"")
                        .append(HtmlUtils.htmlEscape(to + room.roomId() + back))
                        .append("\">")
                        .append(HtmlUtils.htmlEscape(room.room(), "UTF-8"))
                        .append("</a></li>");
            }
            return all.toString();
        }
    }

    /** How many rooms of a facility are in which state, filters apart. */
    record Counts(UUID facilityId, String facility, int notReady, int withRemarks, int ready) {}

    /**
     * What the page shows.
     *
     * @param facility when one is asked for
     * @param zone of all rooms shown; null when they have several
     * @param reasons codes of the reasons that rooms have, with the number of rooms
     * @param found rooms that the filter lets through
     * @param next how many to skip for those after the ones told in full; null when there are none
     */
    record Found(
            Instant at,
            @Nullable Facility facility,
            @Nullable ZoneId zone,
            List<Counts> counts,
            Map<String, Integer> reasons,
            int found,
            List<Line> lines,
            List<Named> named,
            @Nullable Integer next) {

        /** All counts together. */
        public Counts total() {
            return new Counts(
                    new UUID(0, 0),
                    "",
                    counts.stream().mapToInt(Counts::notReady).sum(),
                    counts.stream().mapToInt(Counts::withRemarks).sum(),
                    counts.stream().mapToInt(Counts::ready).sum());
        }
    }

    /**
     * The rooms that a filter lets through.
     *
     * @param past whether the book is asked as of a moment: it does not keep what was booked and planned then
     * @throws Refusal when there is no such facility
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    Found of(Filter filter, boolean past) {
        var facility = filter.facility() == null ? null : directory.facility(filter.facility());
        var facilities = facility == null ? directory.facilities() : List.of(facility);
        var counts = new ArrayList<Counts>();
        var all = new ArrayList<RoomReadiness>();
        for (var one : facilities) {
            var of = readiness.ofFacility(one.id());
            counts.add(new Counts(one.id(), one.name(), of.notReady(), of.readyWithRemarks(), of.ready()));
            all.addAll(of.rooms());
        }
        var rooms =
                directory.rooms(filter.facility()).stream().collect(Collectors.toMap(Room::id, Function.identity()));
        var found = all.stream()
                .filter(room -> rooms.containsKey(room.roomId()) && passes(filter, room))
                .sorted(Comparator.comparing(RoomReadiness::state)
                        .reversed()
                        .thenComparing(RoomReadiness::room)
                        .thenComparing(RoomReadiness::facility))
                .toList();
        var zones = found.stream()
                .map(room -> zone(rooms, room))
                .distinct()
                .limit(2)
                .toList();
        var skip = Math.min(filter.skip(), found.size());
        var after = Math.min(skip + IN_FULL, found.size());
        return new Found(
                clock.instant(),
                facility,
                zones.size() == 1 ? zones.get(0) : null,
                counts,
                reasons(all),
                found.size(),
                lines(found.subList(skip, after), rooms, past),
                named(found.subList(after, found.size())),
                after < found.size() ? Integer.valueOf(after) : null);
    }

    private static boolean passes(Filter filter, RoomReadiness room) {
        return (filter.state() == null || room.state() == filter.state())
                && (filter.text().isEmpty()
                        || room.room()
                                .toLowerCase(Locale.ROOT)
                                .contains(filter.text().toLowerCase(Locale.ROOT)))
                && (filter.reason().isEmpty()
                        || room.reasons().stream()
                                .anyMatch(reason -> reason.code().equals(filter.reason())));
    }

    private static Map<String, Integer> reasons(List<RoomReadiness> rooms) {
        var counts = new TreeMap<String, Integer>();
        rooms.forEach(room -> room.reasons().stream()
                .map(Reason::code)
                .distinct()
                .forEach(code -> counts.merge(code, 1, Integer::sum)));
        return counts;
    }

    private static List<Named> named(List<RoomReadiness> rooms) {
        var byState = new TreeMap<ReadinessState, List<RoomReadiness>>(Comparator.reverseOrder());
        rooms.forEach(room -> byState.computeIfAbsent(room.state(), state -> new ArrayList<>())
                .add(room));
        return byState.entrySet().stream()
                .map(entry -> new Named(entry.getKey(), entry.getValue()))
                .toList();
    }

    private List<Line> lines(List<RoomReadiness> found, Map<UUID, Room> rooms, boolean past) {
        var ids = found.stream().map(RoomReadiness::roomId).toList();
        var booked = past || ids.isEmpty() ? new HashMap<UUID, BusyTime>() : bookings.next(ids, clock.instant());
        var visits = past || ids.isEmpty() ? new HashMap<UUID, Schedule.Next>() : schedule.next();
        return found.stream()
                .map(room -> new Line(
                        room.roomId(),
                        room.room(),
                        room.facility(),
                        zone(rooms, room),
                        room.state(),
                        since(room),
                        why(room),
                        Math.max(0, room.reasons().size() - 1),
                        booked.get(room.roomId()),
                        visits.get(room.roomId())))
                .toList();
    }

    private static ZoneId zone(Map<UUID, Room> rooms, RoomReadiness room) {
        var known = rooms.get(room.roomId());
        return known == null ? ZoneId.of("UTC") : ZoneId.of(known.timeZone());
    }

    /** When the first of the reasons began that make the room what it is; null when none of them tells. */
    static @Nullable Instant since(RoomReadiness room) {
        return room.reasons().stream()
                .filter(reason -> reason.weight() == room.state())
                .map(Reason::since)
                .filter(java.util.Objects::nonNull)
                .min(Comparator.naturalOrder())
                .orElse(null);
    }

    private static String why(RoomReadiness room) {
        if (room.reasons().isEmpty()) {
            return "";
        }
        var first = room.reasons().get(0);
        var text = (first.display() == null ? "" : first.display() + ": ") + first.text();
        return text.length() <= LONGEST_REASON ? text : text.substring(0, LONGEST_REASON - 1) + "…";
    }
}
