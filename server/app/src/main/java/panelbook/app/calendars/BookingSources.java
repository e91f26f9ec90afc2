package panelbook.app.calendars;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.fleet.RoomContents;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.Booking;
import panelbook.wire.BookingSource;
import panelbook.wire.BookingSourceDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;
import panelbook.wire.Role;

/** The calendars that tell when rooms are booked. */
@Component
class BookingSources {

    private static final int LONGEST_NAME = 200;
    private static final Duration USUAL_SPAN = Duration.ofDays(28);
    private static final Duration LONGEST_SPAN = Duration.ofDays(500);
    private static final String SELECT = """
            select s.id, s.room_id, r.name as room, s.name, s.fetched, g.read_at, g.tried_at, g.error, s.retired_at, s.version,
                   (select count(*) from booking b where b.source_id = s.id) as bookings
            from booking_source s join room r on r.id = s.room_id join booking_reading g on g.source_id = s.id""";
    private static final Query.Key<BookingSource> KEY = new Query.Key<>(BookingSource::name, BookingSource::id);

    private final RoomContents rooms;
    private final JdbcClient jdbc;
    private final Clock clock;

    BookingSources(RoomContents rooms, JdbcClient jdbc, Clock clock) {
        this.rooms = rooms;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Adds a calendar; the same draft again is harmless. */
    @Transactional
    Added<BookingSource> add(UUID roomId, BookingSourceDraft draft) {
        check(draft);
        var room = rooms.room(roomId);
        var there = find(draft.id());
        if (there.isEmpty()) {
            if (room.retiredAt() != null) {
                throw Refusal.conflict("The room \"" + room.name() + "\" is retired: its record stays as it is.");
            }
            insert(roomId, draft);
        }
        var source = get(draft.id());
        Repeats.mustBeSame(says(source, roomId, draft), "booking source", draft.id());
        return new Added<>(source, there.isEmpty());
    }

    private static void check(BookingSourceDraft draft) {
        var checks = new Checks().line("/name", draft.name(), LONGEST_NAME);
        if (draft.url() != null) {
            var wrong = CalendarAddress.wrong(draft.url());
            checks.that(wrong == null, "/url", String.valueOf(wrong));
        }
        checks.refuse();
    }

    private void insert(UUID roomId, BookingSourceDraft draft) {
        jdbc.sql("""
                        insert into booking_source (id, room_id, name, fetched) values (:id, :room, :name, :fetched)
                        on conflict (id) do nothing""")
                .param("id", draft.id())
                .param("room", roomId)
                .param("name", draft.name())
                .param("fetched", draft.url() != null)
                .update();
        jdbc.sql("insert into booking_reading (source_id, url) values (:id, :url) on conflict (source_id) do nothing")
                .param("id", draft.id())
                .param("url", draft.url())
                .update();
    }

    private boolean says(BookingSource there, UUID roomId, BookingSourceDraft draft) {
        return there.roomId().equals(roomId)
                && there.name().equals(draft.name())
                && (there.retiredAt() != null || Objects.equals(url(draft.id()).orElse(null), draft.url()));
    }

    private Optional<String> url(UUID id) {
        return jdbc.sql("select url from booking_reading where source_id = ? and url is not null")
                .param(id)
                .query(String.class)
                .optional();
    }

    /** Takes a calendar out of use: its bookings block nothing any more, and its address is forgotten. */
    @Transactional
    BookingSource retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        get(id);
        jdbc.sql("update booking_source set retired_at = :now where id = :id and retired_at is null")
                .param("now", Rows.at(clock.instant()))
                .param("id", id)
                .update();
        jdbc.sql("update booking_reading set url = null, etag = null, last_modified = null where source_id = :id")
                .param("id", id)
                .update();
        return get(id);
    }

    @Transactional(readOnly = true)
    BookingSource get(UUID id) {
        return find(id).orElseThrow(() -> Refusal.notFound("booking source", id));
    }

    private Optional<BookingSource> find(UUID id) {
        return new Query(SELECT).where("s.id = :id", "id", id).one(jdbc, BookingSources::source);
    }

    @Transactional(readOnly = true)
    Page<BookingSource> page(@Nullable UUID facility, @Nullable UUID room, boolean retired, Paging paging) {
        return new Query(SELECT)
                .where("r.facility_id = :facility", "facility", facility)
                .where("s.room_id = :room", "room", room)
                .retired(retired, "s.retired_at")
                .page(jdbc, BookingSources::source, paging, "s.name", "s.id", KEY);
    }

    /** The calendars in use of a room, by name. */
    @Transactional(readOnly = true)
    List<BookingSource> of(UUID roomId) {
        rooms.room(roomId);
        return new Query(SELECT)
                .where("s.room_id = :room", "room", roomId)
                .retired(false, "s.retired_at")
                .list(jdbc, BookingSources::source, "s.name, s.id");
    }

    /** The bookings of a room that overlap a time, in order; from now on and for four weeks where it is not said. */
    @Transactional(readOnly = true)
    List<Booking> bookings(UUID roomId, @Nullable Instant from, @Nullable Instant until) {
        rooms.room(roomId);
        var start = from == null ? clock.instant() : from;
        var end = until == null ? start.plus(USUAL_SPAN) : until;
        new Checks()
                .that(start.isBefore(end), "until", "Must be later than from.")
                .that(!end.isAfter(start.plus(LONGEST_SPAN)), "until", "Must be at most 500 days after from.")
                .refuse();
        var titles = Caller.current().role() == Role.ENGINEER;
        return jdbc.sql("""
                        select s.id, s.name, b.starts_at, b.ends_at, b.title
                        from booking_source s join booking b on b.source_id = s.id
                        where s.room_id = :room and s.retired_at is null and b.starts_at < :until and b.ends_at > :from
                        order by b.starts_at, b.ends_at, s.name, b.uid""")
                .param("room", roomId)
                .param("from", Rows.at(start))
                .param("until", Rows.at(end))
                .query((row, n) -> new Booking(
                        Rows.id(row, "id"),
                        row.getString("name"),
                        Rows.instant(row, "starts_at"),
                        Rows.instant(row, "ends_at"),
                        titles ? row.getString("title") : null))
                .list();
    }

    private static BookingSource source(ResultSet row, int n) throws SQLException {
        return new BookingSource(
                Rows.id(row, "id"),
                Rows.id(row, "room_id"),
                row.getString("room"),
                row.getString("name"),
                row.getBoolean("fetched"),
                Rows.instantOrNull(row, "read_at"),
                Rows.instantOrNull(row, "tried_at"),
                row.getString("error"),
                row.getInt("bookings"),
                Rows.instantOrNull(row, "retired_at"),
                row.getLong("version"));
    }
}
