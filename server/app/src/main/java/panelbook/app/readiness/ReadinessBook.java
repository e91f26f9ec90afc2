package panelbook.app.readiness;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import tools.jackson.databind.json.JsonMapper;

/** Reads all that a readiness rests on, in one statement for a room or for a whole facility. */
@Component
class ReadinessBook {

    private static final String SELECT = """
            select r.id as room_id, r.name as room, f.name as facility, d.name as display, p.id as preset_id,
                   p.name as preset, t.name as target,
                   h.id is not null as is_hero,
                   rh.preset_id is not null as has_hero,
                   b.id is not null as has_baseline, lower(b.during) as baseline_at,
                   (select pc.hours from counted_panel_hours pc where pc.run_id = b.run_id
                    order by pc.id desc limit 1) as baseline_hours,
                   ph.hours as panel_hours, ts.recalibration_days, ts.recalibration_panel_hours,
                   lr.taken_at as run_at, lr.warmed_up,
                   m.id is not null as matched, um.operators as unmeasured_for,
                   sf.findings, al.alerts
            from room r
            join facility f on f.id = r.facility_id
            left join display_stay s on s.room_id = r.id and upper_inf(s.during)
            left join display d on d.id = s.display_id and d.retired_at is null
            left join preset p on p.display_id = d.id and p.retired_at is null
            left join target t on t.id = p.target_id
            left join target_revision tr on tr.target_id = t.id and tr.revision = t.version
            left join tolerance_set tl on tl.id = tr.tolerance_set_id
            left join tolerance_set_revision ts on ts.tolerance_set_id = tl.id and ts.revision = tl.version
            left join hero h on h.preset_id = p.id and h.room_id = r.id and upper_inf(h.during)
            left join hero rh on rh.room_id = r.id and rh.target_id = p.target_id and upper_inf(rh.during)
            left join counted_baseline b on b.preset_id = p.id and upper_inf(b.during)
            left join lateral (select hours from counted_panel_hours where display_id = d.id
                               order by at desc, id desc limit 1) ph on true
            left join lateral (select taken_at, warmed_up from counted_run where preset_id = p.id
                               order by taken_at desc, received_at desc limit 1) lr on true
            left join lateral (select id from counted_match where follower_preset_id = p.id and hero_preset_id = rh.preset_id
                               limit 1) m on true
            left join lateral (select string_agg(x.operator, ', ' order by x.operator) as operators
                               from (select distinct on (operator) operator, follower_run_id from counted_match
                                     where follower_preset_id = p.id and hero_preset_id = rh.preset_id
                                     order by operator, signed_at desc, recorded_at desc) x
                               where x.follower_run_id is null) um on true
            left join lateral (select jsonb_agg(jsonb_build_object(
                                          'rule', fi.rule, 'metric', fi.metric, 'decision', fi.decision,
                                          'explanation', fi.explanation, 'since', fi.assessed_at)
                                      order by fi.metric, fi.explanation) as findings
                               from standing_finding st join finding fi on fi.id = st.finding_id
                               where st.preset_id = p.id and st.decision <> 'within'
                                 and (fi.detail ->> 'setAside')::boolean is not true) sf on true
            left join lateral (select jsonb_agg(jsonb_build_object(
                                          'cause', a.cause, 'onRoom', a.subject_id = r.id, 'held', a.held_by is not null,
                                          'speaker', jsonb_build_object(
                                              'id', v.id, 'cause', v.cause, 'headline', v.headline, 'since', v.opened_at,
                                              'acknowledged', v.acknowledged_at is not null))
                                      order by a.cause, a.subject_id) as alerts
                               from alert a join alert v on v.id = coalesce(a.held_by, a.id)
                               where a.subject_id = any (array[p.id, r.id]) and a.closed_at is null) al on true
            where r.retired_at is null and %s
            order by r.name, r.id, d.name, p.name
            """;

    private final JdbcClient jdbc;
    private final JsonMapper json;

    ReadinessBook(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /** The presets of a room; a room without any gives one line without a preset, an unknown room none. */
    List<PresetLine> ofRoom(UUID roomId) {
        return jdbc.sql(SELECT.formatted("r.id = :id"))
                .param("id", roomId)
                .query((row, n) -> line(row))
                .list();
    }

    /** The presets of all rooms of a facility, room by room. */
    List<PresetLine> ofFacility(UUID facilityId) {
        return jdbc.sql(SELECT.formatted("r.facility_id = :id"))
                .param("id", facilityId)
                .query((row, n) -> line(row))
                .list();
    }

    private PresetLine line(ResultSet row) throws SQLException {
        return new PresetLine(
                Rows.id(row, "room_id"),
                row.getString("room"),
                row.getString("facility"),
                row.getString("display"),
                row.getString("preset"),
                row.getString("target"),
                row.getBoolean("is_hero"),
                row.getBoolean("has_hero"),
                row.getBoolean("has_baseline"),
                Rows.instantOrNull(row, "baseline_at"),
                Rows.doubleOrNull(row, "baseline_hours"),
                Rows.doubleOrNull(row, "panel_hours"),
                Rows.intOrNull(row, "recalibration_days"),
                Rows.intOrNull(row, "recalibration_panel_hours"),
                Rows.instantOrNull(row, "run_at"),
                Rows.booleanOrNull(row, "warmed_up"),
                row.getBoolean("matched"),
                row.getString("unmeasured_for"),
                list(row.getString("findings"), PresetLine.NotWithin[].class),
                list(row.getString("alerts"), PresetLine.OpenAlert[].class));
    }

    private <T> List<T> list(@org.jspecify.annotations.Nullable String text, Class<T[]> type) {
        return text == null ? List.of() : List.of(json.readValue(text, type));
    }
}
