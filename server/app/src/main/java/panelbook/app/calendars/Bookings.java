package panelbook.app.calendars;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;

/** When rooms are booked, by all calendars that tell of them, and never for what: titles are for those who may read them. */
@Component
public class Bookings {

    /** Overlapping and adjoining bookings are one busy time. */
    private static final String BUSY = """
            select t.room_id, lower(t.span) as busy_from, upper(t.span) as busy_until
            from (select s.room_id, unnest(range_agg(tstzrange(greatest(b.starts_at, :from), least(b.ends_at, :until)))) as span
                  from booking_source s join booking b on b.source_id = s.id
                  where s.room_id = any (:rooms) and s.retired_at is null
                    and b.starts_at < :until and b.ends_at > :from
                  group by s.room_id) t
            order by t.room_id, busy_from
            """;

    private static final String NEXT = """
            select distinct on (s.room_id) s.room_id, b.starts_at, b.ends_at
            from booking_source s
            cross join lateral (select starts_at, ends_at from booking where source_id = s.id and ends_at > :from
                                order by starts_at limit 1) b
            where s.room_id = any (:rooms) and s.retired_at is null
            order by s.room_id, b.starts_at
            """;

    private final JdbcClient jdbc;

    Bookings(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * The times at which rooms are booked, by room, cut to the time asked for.
     *
     * @param roomIds any number; one statement reads all
     * @param from first instant
     * @param until the instant after the last, later than {@code from}
     * @return each room that was asked for with its busy times, in order and apart from each other; none when it is free, or when
     *     no calendar tells of it
     */
    public Map<UUID, List<BusyTime>> of(Collection<UUID> roomIds, Instant from, Instant until) {
        var busy = new HashMap<UUID, List<BusyTime>>();
        roomIds.forEach(room -> busy.put(room, new ArrayList<>()));
        jdbc.sql(BUSY)
                .param("rooms", roomIds.toArray(new UUID[0]))
                .param("from", Rows.at(from))
                .param("until", Rows.at(until))
                .query(row -> {
                    busy.computeIfAbsent(Rows.id(row, "room_id"), room -> new ArrayList<>())
                            .add(new BusyTime(Rows.instant(row, "busy_from"), Rows.instant(row, "busy_until")));
                });
        return busy;
    }

    /**
     * The booking under way or else the next one, by room.
     *
     * @param roomIds any number; one statement reads all
     * @return nothing for a room that is not booked any more, or that no calendar tells of
     */
    public Map<UUID, BusyTime> next(Collection<UUID> roomIds, Instant from) {
        var next = new HashMap<UUID, BusyTime>();
        jdbc.sql(NEXT)
                .param("rooms", roomIds.toArray(new UUID[0]))
                .param("from", Rows.at(from))
                .query(row -> {
                    next.put(
                            Rows.id(row, "room_id"),
                            new BusyTime(Rows.instant(row, "starts_at"), Rows.instant(row, "ends_at")));
                });
        return next;
    }

    /** The rooms whose bookings some calendar tells. */
    public Set<UUID> roomsWithCalendar() {
        return new HashSet<>(jdbc.sql("select room_id from booking_source where retired_at is null")
                .query(UUID.class)
                .list());
    }
}
