package panelbook.app.calendars;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import panelbook.app.database.Rows;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;

/** The door that planners ask when rooms are taken. */
class BookingsTest extends ServiceTest {

    private static final Instant MONDAY = Instant.parse("2026-03-02T00:00:00Z");

    @Autowired
    private Bookings bookings;

    @Autowired
    private JdbcClient jdbc;

    private Samples samples;
    private UUID facility;

    @BeforeEach
    void samples() {
        samples = new Samples(engineer());
        facility = samples.facility().id();
    }

    @Test
    void bookingsThatOverlapOrAdjoinAreOneBusyTimeCutToWhatIsAsked() {
        var room = samples.room(facility).id();
        var one = source(room, false);
        var other = source(room, false);
        book(one, 8, 10);
        book(one, 10, 11);
        book(other, 9, 12);
        book(other, 20, 30);

        assertThat(bookings.of(List.of(room), hour(9), hour(24)).get(room))
                .containsExactly(new BusyTime(hour(9), hour(12)), new BusyTime(hour(20), hour(24)));
    }

    @Test
    void eachRoomThatIsAskedForIsAnsweredAndAForgottenCalendarSaysNothing() {
        var booked = samples.room(facility).id();
        var free = samples.room(facility).id();
        var forgotten = samples.room(facility).id();
        book(source(booked, false), 8, 9);
        book(source(forgotten, true), 8, 9);

        assertThat(bookings.of(List.of(booked, free, forgotten), hour(0), hour(24)))
                .containsOnlyKeys(booked, free, forgotten)
                .containsEntry(booked, List.of(new BusyTime(hour(8), hour(9))))
                .containsEntry(free, List.of())
                .containsEntry(forgotten, List.of());
        assertThat(bookings.of(List.of(), hour(0), hour(24))).isEmpty();
    }

    private static Instant hour(int hours) {
        return MONDAY.plus(Duration.ofHours(hours));
    }

    private UUID source(UUID room, boolean retired) {
        var id = UUID.randomUUID();
        jdbc.sql("insert into booking_source (id, room_id, name, retired_at) values (?, ?, ?, ?)")
                .params(id, room, unique("calendar"), retired ? Rows.at(MONDAY) : null)
                .update();
        return id;
    }

    private void book(UUID source, int from, int until) {
        jdbc.sql("insert into booking (source_id, uid, starts_at, ends_at) values (?, ?, ?, ?)")
                .params(source, UUID.randomUUID().toString(), Rows.at(hour(from)), Rows.at(hour(until)))
                .update();
    }
}
