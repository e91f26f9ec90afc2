package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.calendars.Bookings;

/** When rooms are booked; what for is nothing that a plan may tell. */
@Component
class RoomBookings {

    /** Bookings are told as far as this around the time asked for, so that people recognise them. */
    private static final Duration AROUND = Duration.ofDays(7);

    private final JdbcClient jdbc;
    private final Bookings bookings;

    RoomBookings(JdbcClient jdbc, Bookings bookings) {
        this.jdbc = jdbc;
        this.bookings = bookings;
    }

    /** When rooms are booked around a stretch of time, by room, in order and apart from each other. */
    Map<UUID, List<Stretch>> during(Collection<UUID> roomIds, Instant from, Instant to) {
        var booked = new HashMap<UUID, List<Stretch>>();
        bookings.of(roomIds, from.minus(AROUND), to.plus(AROUND))
                .forEach((room, times) -> booked.put(
                        room,
                        times.stream()
                                .map(time -> new Stretch(time.from(), time.until()))
                                .filter(time -> time.meets(from, to))
                                .toList()));
        return booked;
    }

    /** The rooms whose bookings somebody gives. */
    Set<UUID> roomsWithCalendar() {
        return new HashSet<>(jdbc.sql("select room_id from booking_source where retired_at is null")
                .query(UUID.class)
                .list());
    }
}
