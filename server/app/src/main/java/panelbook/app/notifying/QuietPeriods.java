package panelbook.app.notifying;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.QuietPeriod;
import panelbook.wire.QuietPeriodDraft;

/** Quiet periods of rooms and displays: made with a reason and an end, ended before their time at most once. */
@Component
class QuietPeriods {

    private static final Duration LONGEST = Duration.ofDays(90);

    private static final String SELECT = """
            select q.*, concat_ws('/', f.name, r.name, d.name) as place, k.kept
            from quiet_period q left join room r on r.id = q.room_id left join display d on d.id = q.display_id
            join facility f on f.id = coalesce(r.facility_id, d.facility_id)
            left join lateral (select count(*) as kept from notification n
                               where n.quiet_id = q.id and n.state = 'quiet') k on true
            """;

    private final JdbcClient jdbc;
    private final Clock clock;

    QuietPeriods(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Makes a quiet period; the same draft again is harmless. */
    @Transactional
    Added<QuietPeriod> add(QuietPeriodDraft draft) {
        var now = clock.instant();
        var there = find(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(says(there.get(), draft), "quiet period", draft.id());
            return new Added<>(there.get(), false);
        }
        check(draft);
        mustStandInTheBook(draft);
        jdbc.sql("""
                        insert into quiet_period (id, room_id, display_id, reason, from_at, until_at, made_at, made_by)
                        values (:id, :room, :display, :reason, :from, :until, :now, :by)
                        """)
                .param("id", draft.id())
                .param("room", draft.roomId())
                .param("display", draft.displayId())
                .param("reason", draft.reason())
                .param("from", Rows.at(draft.from() == null ? now : draft.from()))
                .param("until", Rows.at(draft.until()))
                .param("now", Rows.at(now))
                .param("by", Caller.current().holder())
                .update();
        return new Added<>(get(draft.id()), true);
    }

    /** Ends a quiet period now; harmless when it is over already. */
    @Transactional
    QuietPeriod end(UUID id) {
        get(id);
        var now = clock.instant();
        jdbc.sql("""
                        update quiet_period set ended_at = :now, ended_by = :by
                        where id = :id and ended_at is null and settled_at is null and until_at > :now
                        """)
                .param("id", id)
                .param("now", Rows.at(now))
                .param("by", Caller.current().holder())
                .update();
        return get(id);
    }

    /** Quiet periods that are not over, the first to end first; with {@code past} those over, too. */
    @Transactional(readOnly = true)
    List<QuietPeriod> list(@Nullable UUID roomId, @Nullable UUID displayId, boolean past) {
        var query = new Query(SELECT)
                .where("q.room_id = :room", "room", roomId)
                .where("q.display_id = :display", "display", displayId);
        if (!past) {
            query.where("coalesce(q.ended_at, q.until_at) > :now", "now", Rows.at(clock.instant()));
        }
        return query.list(jdbc, QuietPeriods::quiet, "coalesce(q.ended_at, q.until_at), q.id limit 1000");
    }

    private QuietPeriod get(UUID id) {
        return find(id).orElseThrow(() -> Refusal.notFound("quiet period", id));
    }

    private Optional<QuietPeriod> find(UUID id) {
        return new Query(SELECT).where("q.id = :id", "id", id).one(jdbc, QuietPeriods::quiet);
    }

    private void check(QuietPeriodDraft draft) {
        var now = clock.instant();
        var from = draft.from() == null ? now : draft.from();
        new Checks()
                .that(!draft.reason().isBlank(), "/reason", "Must not be empty: others will wonder why it is quiet.")
                .text("/reason", draft.reason(), 10_000)
                .that(
                        (draft.roomId() == null) != (draft.displayId() == null),
                        "/roomId",
                        "Name either a room or a display.")
                .that(!from.isBefore(now.minus(Duration.ofDays(1))), "/from", "Must not lie more than a day back.")
                .that(draft.until().isAfter(now), "/until", "Must lie in the future.")
                .that(draft.until().isAfter(from), "/until", "Must come after the beginning.")
                .that(
                        draft.until().isBefore(now.plus(LONGEST)),
                        "/until",
                        "Must lie within " + LONGEST.toDays() + " days: what is quiet for longer is forgotten.")
                .refuse();
    }

    private void mustStandInTheBook(QuietPeriodDraft draft) {
        if (draft.roomId() != null && !Rows.exists(jdbc, "room", draft.roomId())) {
            throw Refusal.notFound("room", draft.roomId());
        }
        if (draft.displayId() != null && !Rows.exists(jdbc, "display", draft.displayId())) {
            throw Refusal.notFound("display", draft.displayId());
        }
    }

    private static boolean says(QuietPeriod there, QuietPeriodDraft draft) {
        return java.util.Objects.equals(there.roomId(), draft.roomId())
                && java.util.Objects.equals(there.displayId(), draft.displayId())
                && there.reason().equals(draft.reason())
                && (draft.from() == null || Rows.kept(draft.from()).equals(there.from()))
                && Rows.kept(draft.until()).equals(there.until());
    }

    private static QuietPeriod quiet(ResultSet row, int n) throws SQLException {
        return new QuietPeriod(
                Rows.id(row, "id"),
                Rows.idOrNull(row, "room_id"),
                Rows.idOrNull(row, "display_id"),
                row.getString("place"),
                row.getString("reason"),
                Rows.instant(row, "from_at"),
                Rows.instant(row, "until_at"),
                Rows.instant(row, "made_at"),
                row.getString("made_by"),
                Rows.instantOrNull(row, "ended_at"),
                row.getString("ended_by"),
                row.getLong("kept"));
    }
}
