package panelbook.app.matching;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import panelbook.app.database.Rows;

/** Which matches are in force. */
@Service
public class Matches {

    // the newest of each operator for each pair, while the hero is the hero; a pair of retired presets is left out
    private static final String IN_FORCE = """
            select distinct on (m.follower_preset_id, m.hero_preset_id, m.operator)
                   m.id, m.follower_preset_id, m.hero_preset_id, m.operator, m.follower_run_id, m.hero_run_id, m.signed_at,
                   coalesce(lower(hb.during) > coalesce(hc.taken_at, m.signed_at), false) as hero_rebased,
                   coalesce(lower(fb.during) > coalesce(fc.taken_at, m.signed_at), false) as follower_rebased,
                   exists (select 1 from run_withdrawal w where w.run_id = m.hero_run_id) as hero_run_withdrawn,
                   exists (select 1 from run_withdrawal w where w.run_id = m.follower_run_id) as follower_run_withdrawn
            from counted_match m
            join hero h on h.preset_id = m.hero_preset_id and upper_inf(h.during)
            join preset fp on fp.id = m.follower_preset_id and fp.retired_at is null
            join display fd on fd.id = fp.display_id and fd.retired_at is null
            join display_stay fs on fs.display_id = fd.id and upper_inf(fs.during) and fs.room_id = h.room_id
            left join run fc on fc.id = m.follower_run_id
            left join run hc on hc.id = m.hero_run_id
            left join counted_baseline hb on hb.preset_id = m.hero_preset_id and %1$s
            left join counted_baseline fb on fb.preset_id = m.follower_preset_id and %2$s
            where (m.follower_preset_id = any (:presets) or m.hero_preset_id = any (:presets)) and %3$s
            order by m.follower_preset_id, m.hero_preset_id, m.operator, m.signed_at desc, m.recorded_at desc
            """;

    private static final String NOW = IN_FORCE.formatted("upper_inf(hb.during)", "upper_inf(fb.during)", "true");

    private static final String THEN = IN_FORCE.formatted(
            "hb.during @> :at::timestamptz", "fb.during @> :at::timestamptz", "m.signed_at <= :at::timestamptz");

    // the newest of each operator on the baseline of the time, whether or not its hero is still the hero
    private static final String SIGNED = """
            select distinct on (m.operator) m.operator, c.id as follower_run_id, m.signed_at
            from counted_match m
            left join counted_run c on c.id = m.follower_run_id
            left join counted_baseline b on b.preset_id = m.follower_preset_id and b.during @> :at::timestamptz
            where m.follower_preset_id = :preset and coalesce(c.taken_at, m.signed_at) <= :at
              and (b.id is null or coalesce(c.taken_at, m.signed_at) >= lower(b.during))
            order by m.operator, m.signed_at desc, m.recorded_at desc
            """;

    private final JdbcClient jdbc;

    Matches(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /**
     * The matches in force in which one of the presets is follower or hero. A match is in force while its hero is the hero
     * of the room that the follower stands in and no later match of the same operator replaced it, measured or not.
     */
    public List<Agreement> inForceOf(Collection<UUID> presetIds) {
        return jdbc.sql(NOW)
                .param("presets", presetIds.toArray(new UUID[0]))
                .query((row, n) -> agreement(row))
                .list();
    }

    /** As {@link #inForceOf}, of the sign-offs and baselines that there were at a time; heroes and rooms are those of now. */
    public List<Agreement> inForceThen(Collection<UUID> presetIds, Instant at) {
        return jdbc.sql(THEN)
                .param("presets", presetIds.toArray(new UUID[0]))
                .param("at", Rows.at(at))
                .query((row, n) -> agreement(row))
                .list();
    }

    /**
     * The states that a preset was left in by the sign-offs made on its baseline of a time, one of each operator. They say how
     * its own controls stand, so they outlast a new baseline of the hero, another hero, and a move to another room.
     */
    public List<SignedState> statesOf(UUID presetId, Instant at) {
        return jdbc.sql(SIGNED)
                .param("preset", presetId)
                .param("at", Rows.at(at))
                .query((row, n) -> new SignedState(
                        row.getString("operator"),
                        Rows.idOrNull(row, "follower_run_id"),
                        Rows.instant(row, "signed_at")))
                .list();
    }

    /** The presets of the matches that closed with one of the runs and count. */
    public List<UUID> presetsClosedWith(Collection<UUID> runIds) {
        return jdbc.sql("""
                        select preset_id from counted_match m
                        cross join lateral unnest(array[m.follower_preset_id, m.hero_preset_id]) as p (preset_id)
                        where m.follower_run_id = any (:runs) or m.hero_run_id = any (:runs)
                        """)
                .param("runs", runIds.toArray(new UUID[0]))
                .query(UUID.class)
                .list();
    }

    private static Agreement agreement(ResultSet row) throws SQLException {
        return new Agreement(
                Rows.id(row, "id"),
                Rows.id(row, "follower_preset_id"),
                Rows.id(row, "hero_preset_id"),
                row.getString("operator"),
                row.getBoolean("follower_run_withdrawn") ? null : Rows.idOrNull(row, "follower_run_id"),
                row.getBoolean("hero_run_withdrawn") ? null : Rows.idOrNull(row, "hero_run_id"),
                Rows.instant(row, "signed_at"),
                row.getBoolean("hero_rebased"),
                row.getBoolean("follower_rebased"),
                row.getBoolean("hero_run_withdrawn"),
                row.getBoolean("follower_run_withdrawn"));
    }
}
