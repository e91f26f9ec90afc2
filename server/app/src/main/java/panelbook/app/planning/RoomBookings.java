package panelbook.app.planning;

import java.time.Instant;
import java.util.Collection;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;

/** When rooms are booked. */
@Component
class RoomBookings {

    /** A booking. */
    record Booked(UUID roomId, Stretch during, @Nullable String title) {}

    private final JdbcClient jdbc;

    RoomBookings(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The bookings that touch a stretch of time, by room, in order. */
    Map<UUID, List<Booked>> during(Collection<UUID> roomIds, Instant from, Instant to) {
        return jdbc
                .sql("""
                        select s.room_id, b.starts_at, b.ends_at, b.title
                        from booking b join booking_source s on s.id = b.source_id
                        where s.retired_at is null and s.room_id = any (:rooms) and b.starts_at < :to and b.ends_at > :from
                        order by b.starts_at, b.ends_at, b.uid
                        """)
                .param("rooms", roomIds.toArray(new UUID[0]))
                .param("from", Rows.at(from))
                .param("to", Rows.at(to))
                .query((row, n) -> new Booked(
                        Rows.id(row, "room_id"),
                        new Stretch(Rows.instant(row, "starts_at"), Rows.instant(row, "ends_at")),
                        row.getString("title")))
                .list()
                .stream()
                .collect(Collectors.groupingBy(Booked::roomId));
    }

    /** The rooms whose bookings somebody gives. */
    Set<UUID> roomsWithCalendar() {
        return new HashSet<>(jdbc.sql("select room_id from booking_source where retired_at is null")
                .query(UUID.class)
                .list());
    }
}
