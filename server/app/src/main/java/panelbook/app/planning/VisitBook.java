package panelbook.app.planning;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Words;
import panelbook.wire.Page;
import panelbook.wire.VisitState;
import panelbook.wire.VisitWork;
import tools.jackson.databind.json.JsonMapper;

/** Visits in and out of the database. */
@Component
class VisitBook {

    private static final long LOCK = 0x7669_7369_7473L;

    // a visit is done, too, once all its as-left runs and sign-offs came in, at most half a day around it
    private static final String SELECT = """
            select v.*, v.work::text as work_text, r.facility_id, f.name || '/' || r.name as room, r.time_zone,
                   c.name as calibrator, s.now_is
            from visit v join room r on r.id = v.room_id join facility f on f.id = r.facility_id
            join calibrator c on c.id = v.calibrator_id
            cross join lateral (
                select case when v.state in ('proposed', 'confirmed') and v.work <> '[]' and not exists (
                    select from jsonb_array_elements(v.work) as w
                    where not exists (
                        select from counted_run u
                        where w ->> 'work' = 'recalibration' and u.preset_id = (w ->> 'presetId')::uuid
                          and u.purpose = 'as-left' and u.taken_at >= v.warm_up_from - interval '12 hours'
                          and u.taken_at <= v.ends_at + interval '12 hours')
                      and not exists (
                        select from counted_match m
                        where w ->> 'work' = 'match' and m.follower_preset_id = (w ->> 'presetId')::uuid
                          and m.signed_at >= v.warm_up_from - interval '12 hours'
                          and m.signed_at <= v.ends_at + interval '12 hours'))
                then 'done' else v.state end as now_is) s""";

    private static final String INSERT = """
            insert into visit (id, room_id, calibrator_id, warm_up_from, starts_at, ends_at, state, pinned, work, reason,
                               plan_id, made_at, made_by, changed_at, changed_by, version)
            values (:id, :room, :calibrator, :warmUp, :start, :end, :state, :pinned, :work::jsonb, :reason, :plan, :now, :by,
                    :now, :by, 1)""";

    private static final String UPDATE = """
            update visit set calibrator_id = :calibrator, warm_up_from = :warmUp, starts_at = :start, ends_at = :end,
                   state = :state, pinned = :pinned, work = :work::jsonb, reason = :reason, plan_id = :plan,
                   changed_at = :now, changed_by = :by, version = version + 1
            where id = :id and room_id = :room""";

    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final Clock clock;

    VisitBook(JdbcClient jdbc, JsonMapper json, Clock clock) {
        this.jdbc = jdbc;
        this.json = json;
        this.clock = clock;
    }

    /** Lets others wait who want to change visits, until the transaction ends. */
    void lock() {
        jdbc.sql("select pg_advisory_xact_lock(:lock)").param("lock", LOCK).query(row -> {});
    }

    /** Changes with every change of a visit: versions only rise, and none is ever deleted. */
    String fingerprint() {
        return jdbc.sql("select count(*) || ' ' || coalesce(sum(version), 0) from visit")
                .query(String.class)
                .single();
    }

    Optional<VisitRow> find(UUID id) {
        return new Query(SELECT).where("v.id = :id", "id", id).one(jdbc, this::row);
    }

    /** Those not done or dropped that reach into a stretch of time, by start. */
    List<VisitRow> ahead(Instant from, Instant to) {
        return new Query(SELECT)
                .where("s.now_is in ('proposed', 'confirmed')")
                .where("v.starts_at < :to", "to", Rows.at(to))
                .where("v.ends_at > :from", "from", Rows.at(from))
                .list(jdbc, this::row, "v.starts_at, v.id");
    }

    /** Proposals, pinned ones left out, whenever they are. */
    List<VisitRow> proposals() {
        return new Query(SELECT)
                .where("s.now_is = 'proposed' and not v.pinned")
                .list(jdbc, this::row, "v.starts_at, v.id");
    }

    /** A page by start. */
    Page<VisitRow> page(VisitFilter filter, Paging paging) {
        var query = new Query(SELECT)
                .where("v.room_id = :room", "room", filter.room())
                .where("r.facility_id = :facility", "facility", filter.facility())
                .where("v.calibrator_id = :calibrator", "calibrator", filter.calibrator())
                .where("v.ends_at > :from", "from", Rows.atOrNull(filter.from()))
                .where("v.starts_at < :until", "until", Rows.atOrNull(filter.until()))
                .where("s.now_is = any (:states)", "states", filter.states());
        if (!paging.first()) {
            query.where("(v.starts_at, v.id) > (:afterStart, :afterId)")
                    .bind("afterStart", Rows.atOrNull(paging.parsed(0, Instant::parse)))
                    .bind("afterId", paging.keyId(1));
        }
        var found = query.list(jdbc, this::row, "v.starts_at, v.id limit " + paging.fetch());
        return paging.page(
                found, row -> List.of(row.startsAt().toString(), row.id().toString()));
    }

    void insert(VisitRow row) {
        write(INSERT, row);
    }

    void update(VisitRow row) {
        write(UPDATE, row);
    }

    private void write(String sql, VisitRow row) {
        jdbc.sql(sql)
                .param("id", row.id())
                .param("room", row.roomId())
                .param("calibrator", row.calibratorId())
                .param("warmUp", Rows.at(row.warmUpFrom()))
                .param("start", Rows.at(row.startsAt()))
                .param("end", Rows.at(row.endsAt()))
                .param("state", row.state().toString())
                .param("pinned", row.pinned())
                .param("work", json.writeValueAsString(row.work()))
                .param("reason", row.reason())
                .param("plan", row.planId())
                .param("now", Rows.at(clock.instant()))
                .param("by", Caller.find().map(Caller::holder).orElse("service"))
                .update();
    }

    /** Writes down that visits were done whose as-left runs and sign-offs came in. */
    void noteDone() {
        new Query(SELECT)
                .where("v.state in ('proposed', 'confirmed') and s.now_is = 'done'")
                .list(jdbc, this::row, "v.id")
                .forEach(this::update);
    }

    private VisitRow row(ResultSet row, int n) throws SQLException {
        return new VisitRow(
                Rows.id(row, "id"),
                Rows.id(row, "room_id"),
                Rows.id(row, "facility_id"),
                row.getString("room"),
                ZoneId.of(row.getString("time_zone")),
                Rows.id(row, "calibrator_id"),
                row.getString("calibrator"),
                Rows.instant(row, "warm_up_from"),
                Rows.instant(row, "starts_at"),
                Rows.instant(row, "ends_at"),
                Words.of(VisitState.class, row.getString("now_is")),
                row.getBoolean("pinned"),
                List.of(json.readValue(row.getString("work_text"), VisitWork[].class)),
                row.getString("now_is").equals(row.getString("state"))
                        ? row.getString("reason")
                        : "its runs and sign-offs came in",
                Rows.idOrNull(row, "plan_id"),
                Rows.instant(row, "changed_at"),
                row.getString("changed_by"),
                row.getLong("version"));
    }
}
