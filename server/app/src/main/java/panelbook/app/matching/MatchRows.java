package panelbook.app.matching;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.runs.PresetPath;
import panelbook.app.runs.WithdrawalRows;
import panelbook.wire.Match;
import panelbook.wire.Trim;
import tools.jackson.databind.json.JsonMapper;

/** Matches as the contract shows them. */
@Component
class MatchRows {

    // a later sign-off of the same pair and operator replaces an earlier one
    private static final String SELECT = """
            select m.*, %s as follower, %s as hero,
                   not exists (select 1 from counted_match n
                               where n.follower_preset_id = m.follower_preset_id and n.hero_preset_id = m.hero_preset_id
                                 and n.operator = m.operator
                                 and (n.signed_at, n.recorded_at) > (m.signed_at, m.recorded_at)) as newest,
                   exists (select 1 from hero h where h.preset_id = m.hero_preset_id and upper_inf(h.during)) as is_hero,
                   coalesce(lower(hb.during) > coalesce(hc.taken_at, m.signed_at), false) as hero_rebased,
                   coalesce(lower(fb.during) > coalesce(fc.taken_at, m.signed_at), false) as follower_rebased,
                   exists (select 1 from run_withdrawal w where w.run_id = m.hero_run_id) as hero_run_withdrawn,
                   exists (select 1 from run_withdrawal w where w.run_id = m.follower_run_id) as follower_run_withdrawn,
                   mw.reason as withdrawn_because, mw.withdrawn_at, mw.withdrawn_by, mw.replaced_by,
                   (select jsonb_agg(jsonb_build_object('control', t.control, 'level', t.level, 'clicks', t.clicks)
                                     order by t.control, t.level)
                    from trim t where t.match_id = m.id) as trims
            from match m
            %s%s
            left join run fc on fc.id = m.follower_run_id
            left join run hc on hc.id = m.hero_run_id
            left join counted_baseline hb on hb.preset_id = m.hero_preset_id and upper_inf(hb.during)
            left join counted_baseline fb on fb.preset_id = m.follower_preset_id and upper_inf(fb.during)
            left join match_withdrawal mw on mw.match_id = m.id
            """.formatted(
                    PresetPath.expression("f"),
                    PresetPath.expression("h"),
                    PresetPath.joins("f", "m.follower_preset_id"),
                    PresetPath.joins("h", "m.hero_preset_id"));

    /** Whether a match was not withdrawn, as a condition on {@link #select}. */
    static final String COUNTS = "mw.match_id is null";

    /** Whether a match counts and both its closing runs do, as a condition on {@link #select}. */
    static final String RESTS_ON_RUNS = COUNTS + """
             and m.follower_run_id is not null
             and not exists (select 1 from run_withdrawal w where w.run_id in (m.follower_run_id, m.hero_run_id))
            """;

    private final JdbcClient jdbc;
    private final JsonMapper json;
    private final Offsets offsets;

    MatchRows(JdbcClient jdbc, JsonMapper json, Offsets offsets) {
        this.offsets = offsets;
        this.jdbc = jdbc;
        this.json = json;
    }

    /** Starts a query over all matches; {@code rest} is what follows the joins. */
    JdbcClient.StatementSpec select(String rest) {
        return jdbc.sql(SELECT + rest);
    }

    /** The matches of a query that {@link #select} began. */
    List<Match> list(JdbcClient.StatementSpec query) {
        return offsets.measured(query.query(this::match).list());
    }

    /** Without the agreed offset, which is worked out from the closing runs. */
    private Match match(ResultSet row, int number) throws SQLException {
        var withdrawn = WithdrawalRows.withdrawal(row);
        var newest = row.getBoolean("newest") && withdrawn == null;
        return new Match(
                Rows.id(row, "id"),
                Rows.idOrNull(row, "story_id"),
                Rows.id(row, "follower_preset_id"),
                row.getString("follower"),
                Rows.id(row, "hero_preset_id"),
                row.getString("hero"),
                row.getString("operator"),
                Rows.idOrNull(row, "follower_run_id"),
                Rows.idOrNull(row, "hero_run_id"),
                null,
                trims(row.getString("trims")),
                row.getString("material"),
                row.getString("remarks"),
                Rows.instant(row, "signed_at"),
                row.getString("recorded_by"),
                newest && row.getBoolean("is_hero"),
                withdrawn == null ? inQuestion(row) : null,
                withdrawn);
    }

    private static @Nullable String inQuestion(ResultSet row) throws SQLException {
        return row.getBoolean("is_hero")
                ? Agreement.inQuestion(
                        row.getBoolean("hero_rebased"),
                        row.getBoolean("follower_rebased"),
                        row.getBoolean("hero_run_withdrawn"),
                        row.getBoolean("follower_run_withdrawn"))
                : "the hero of this match is the hero of its room no longer";
    }

    private List<Trim> trims(@Nullable String text) {
        return text == null ? List.of() : List.of(json.readValue(text, Trim[].class));
    }

    /** The match, if there is one. */
    java.util.Optional<Match> find(UUID id) {
        return list(select(" where m.id = :id").param("id", id)).stream().findFirst();
    }
}
