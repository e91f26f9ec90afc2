package panelbook.app.calendars;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.access.Secrets;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.fleet.RoomContents;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.wire.CalendarFeed;
import panelbook.wire.CalendarFeedDraft;
import panelbook.wire.NewCalendarFeed;
import panelbook.wire.Page;

/** The calendars of visits that are open to whoever knows their address. */
@Component
class CalendarFeeds {

    static final String PATH = "/calendars/";
    static final String SUFFIX = ".ics";

    private static final String SELECT = """
            select c.id, c.calibrator_id, c.room_id, k.name as calibrator, f.name || '/' || r.name as room,
                   c.made_at, c.made_by, c.revoked_at, c.revoked_by
            from calendar_feed c left join calibrator k on k.id = c.calibrator_id
            left join room r on r.id = c.room_id left join facility f on f.id = r.facility_id""";

    private final RoomContents rooms;
    private final JdbcClient jdbc;
    private final Clock clock;

    CalendarFeeds(RoomContents rooms, JdbcClient jdbc, Clock clock) {
        this.rooms = rooms;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * An open feed.
     *
     * @param name of the calibrator, or facility/room
     */
    record Open(@Nullable UUID calibratorId, @Nullable UUID roomId, String name) {}

    /** Opens a calendar; its address is told this once. */
    @Transactional
    NewCalendarFeed open(CalendarFeedDraft draft) {
        if ((draft.calibrator() == null) == (draft.roomId() == null)) {
            throw Refusal.invalid("/calibrator", "Name a calibrator or a room, one of them.");
        }
        var calibrator = draft.calibrator() == null ? null : calibrator(draft.calibrator());
        if (draft.roomId() != null) {
            rooms.room(draft.roomId());
        }
        var secret = Secrets.next();
        jdbc.sql("""
                        insert into calendar_feed (id, calibrator_id, room_id, secret_hash, made_at, made_by)
                        values (:id, :calibrator, :room, :hash, :now, :by)""")
                .param("id", draft.id())
                .param("calibrator", calibrator)
                .param("room", draft.roomId())
                .param("hash", Secrets.hash(secret))
                .param("now", Rows.at(clock.instant()))
                .param("by", Caller.current().holder())
                .update();
        return new NewCalendarFeed(get(draft.id()), PATH + secret + SUFFIX);
    }

    private UUID calibrator(String nameOrId) {
        return jdbc.sql("select id from calibrator where name = :text or id::text = lower(:text)")
                .param("text", nameOrId)
                .query(UUID.class)
                .optional()
                .orElseThrow(() -> Refusal.invalid(
                        "/calibrator", "There is no calibrator of this name or id: look at the list of calibrators."));
    }

    /** Closes a calendar for good; again is harmless. */
    @Transactional
    CalendarFeed revoke(UUID id) {
        get(id);
        jdbc.sql("update calendar_feed set revoked_at = :now, revoked_by = :by where id = :id and revoked_at is null")
                .param("now", Rows.at(clock.instant()))
                .param("by", Caller.current().holder())
                .param("id", id)
                .update();
        return get(id);
    }

    @Transactional(readOnly = true)
    Page<CalendarFeed> page(@Nullable UUID room, boolean revoked, Paging paging) {
        var query = new Query(SELECT).where("c.room_id = :room", "room", room);
        if (!revoked) {
            query.where("c.revoked_at is null");
        }
        if (!paging.first()) {
            query.where("(c.made_at, c.id) > (:at, :id)")
                    .bind("at", Rows.atOrNull(paging.parsed(0, Instant::parse)))
                    .bind("id", paging.keyId(1));
        }
        var rows = query.list(jdbc, CalendarFeeds::feed, "c.made_at, c.id limit " + paging.fetch());
        return paging.page(
                rows, feed -> List.of(feed.madeAt().toString(), feed.id().toString()));
    }

    /** The open feed of a secret. It is found by its hash, so that the time this takes tells nothing of the secret. */
    Optional<Open> find(String secret) {
        return new Query(SELECT)
                .where("c.secret_hash = :hash", "hash", Secrets.hash(secret))
                .where("c.revoked_at is null")
                .one(
                        jdbc,
                        (row, n) -> new Open(
                                Rows.idOrNull(row, "calibrator_id"),
                                Rows.idOrNull(row, "room_id"),
                                row.getString("calibrator") == null
                                        ? row.getString("room")
                                        : row.getString("calibrator")));
    }

    private CalendarFeed get(UUID id) {
        return new Query(SELECT)
                .where("c.id = :id", "id", id)
                .one(jdbc, CalendarFeeds::feed)
                .orElseThrow(() -> Refusal.notFound("calendar feed", id));
    }

    private static CalendarFeed feed(ResultSet row, int n) throws SQLException {
        return new CalendarFeed(
                Rows.id(row, "id"),
                row.getString("calibrator"),
                row.getString("room"),
                Rows.instant(row, "made_at"),
                row.getString("made_by"),
                Rows.instantOrNull(row, "revoked_at"),
                row.getString("revoked_by"));
    }
}
