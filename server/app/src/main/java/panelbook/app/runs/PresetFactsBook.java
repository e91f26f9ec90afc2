package panelbook.app.runs;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;

/** Finds the facts of presets as they stand now. */
@Component
public class PresetFactsBook {

    private static final String SELECT = """
            select p.id as preset_id, d.id as display_id, st.room_id, d.facility_id, d.model, d.panel_technology,
                   %s as path,
                   least(p.retired_at, d.retired_at) as retired_at,
                   tr.*, ts.warm_up_minutes, ts.revision as tolerance_set_revision
            from preset p
            %s
            join target t on t.id = p.target_id
            join target_revision tr on tr.target_id = t.id and tr.revision = t.version
            join tolerance_set tl on tl.id = tr.tolerance_set_id
            join tolerance_set_revision ts on ts.tolerance_set_id = tl.id and ts.revision = tl.version
            where p.id = any (:ids)
            """.formatted(PresetPath.expression(""), PresetPath.around(""));

    private final JdbcClient jdbc;

    PresetFactsBook(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The facts of a preset, retired or not; empty when there is none. */
    public Optional<PresetFacts> find(UUID presetId) {
        return Optional.ofNullable(findAll(java.util.List.of(presetId)).get(presetId));
    }

    /** The facts of presets by id; unknown ids are left out. */
    public Map<UUID, PresetFacts> findAll(Collection<UUID> presetIds) {
        var found = new HashMap<UUID, PresetFacts>();
        jdbc.sql(SELECT)
                .param("ids", presetIds.toArray(new UUID[0]))
                .query((row, n) -> facts(row))
                .list()
                .forEach(facts -> found.put(facts.presetId(), facts));
        return found;
    }

    private static PresetFacts facts(ResultSet row) throws SQLException {
        return new PresetFacts(
                Rows.id(row, "preset_id"),
                row.getString("path"),
                Rows.id(row, "display_id"),
                Rows.idOrNull(row, "room_id"),
                Rows.id(row, "facility_id"),
                row.getString("model"),
                row.getString("panel_technology"),
                Rows.id(row, "target_id"),
                row.getLong("revision"),
                TargetRows.target(row),
                Rows.id(row, "tolerance_set_id"),
                row.getLong("tolerance_set_revision"),
                row.getInt("warm_up_minutes"),
                Rows.instantOrNull(row, "retired_at"));
    }
}
