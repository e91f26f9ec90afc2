package panelbook.app.planning;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.app.runs.PresetPath;
import panelbook.wire.PanelHoursAnswerKind;

/** Reads what looking ahead rests on, a statement for all presets at once. */
@Component
class PlanningBook {

    private static final String LINES = """
            select x.id, x.display_id, %s as path, d.facility_id, st.room_id,
                   f.name || '/' || coalesce(ro.name, '-') as room, coalesce(ro.time_zone, f.time_zone) as time_zone,
                   d.model, d.panel_technology, ts.warm_up_minutes,
                   exists (select from hero h where h.preset_id = x.id and upper_inf(h.during)) as hero,
                   b.run_id as baseline_run_id, br.taken_at as baseline_at,
                   br.instrument_id as baseline_instrument_id,
                   tl.name as tolerance_set, ts.recalibration_days, ts.recalibration_panel_hours,
                   lt.limit_value as luminance_limit, wt.limit_value as white_limit
            from preset x
            %s
            join target t on t.id = x.target_id
            join target_revision tr on tr.target_id = t.id and tr.revision = t.version
            join tolerance_set tl on tl.id = tr.tolerance_set_id
            join tolerance_set_revision ts on ts.tolerance_set_id = tl.id and ts.revision = tl.version
            left join tolerance lt on lt.tolerance_set_id = tl.id and lt.revision = tl.version
                                  and lt.metric = 'own-drift-luminance'
            left join tolerance wt on wt.tolerance_set_id = tl.id and wt.revision = tl.version
                                  and wt.metric = 'own-drift-white'
            left join counted_baseline b on b.preset_id = x.id and upper_inf(b.during)
            left join run br on br.id = b.run_id
            """.formatted(PresetPath.expression(""), PresetPath.joins("", "x.id"));

    private static final String LEFT = """
            select b.preset_id, lower(b.during) as since, b.run_id, null as operator
            from counted_baseline b where b.preset_id = any (:presets)
            union all
            select m.follower_preset_id, coalesce(r.taken_at, m.signed_at), r.id, m.operator
            from counted_match m left join counted_run r on r.id = m.follower_run_id
            where m.follower_preset_id = any (:presets)
            order by 1, 2, 4 nulls first
            """;

    private final JdbcClient jdbc;

    PlanningBook(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** One preset, in use or not; empty when there is none. */
    List<PresetLine> of(UUID presetId) {
        return jdbc.sql(LINES + " where x.id = :preset")
                .param("preset", presetId)
                .query((row, n) -> line(row))
                .list();
    }

    /** The presets in use of a facility or a room, or all; by path. */
    List<PresetLine> inUse(@Nullable UUID facilityId, @Nullable UUID roomId) {
        return jdbc.sql(LINES + """
                        where x.retired_at is null and d.retired_at is null
                          and (:facility::uuid is null or d.facility_id = :facility)
                          and (:room::uuid is null or st.room_id = :room)
                        order by path
                        """)
                .param("facility", facilityId)
                .param("room", roomId)
                .query((row, n) -> line(row))
                .list();
    }

    /** The panel technologies of the displays of presets. */
    Map<UUID, String> technologies(Collection<UUID> presetIds) {
        var found = new HashMap<UUID, String>();
        jdbc.sql("""
                        select p.id, d.panel_technology from preset p join display d on d.id = p.display_id
                        where p.id = any (:presets)
                        """).param("presets", presetIds.toArray(new UUID[0])).query(row -> {
            found.put(Rows.id(row, "id"), row.getString("panel_technology"));
        });
        return found;
    }

    /**
     * What open alerts say of presets that are out of tolerance, by preset. What a room's feed or a meter explains is left out:
     * calibrating the display would not help.
     */
    Map<UUID, List<Trouble>> troubles(Collection<UUID> presetIds) {
        return jdbc
                .sql("""
                        select a.subject_id, a.opened_at, a.headline
                        from alert a left join alert holder on holder.id = a.held_by
                        where a.closed_at is null and a.subject_id = any (:presets) and a.cause in ('moved', 'off-target')
                          and (holder.id is null or holder.closed_at is not null or holder.subject_kind = 'preset')
                        order by a.opened_at, a.id
                        """)
                .param("presets", presetIds.toArray(new UUID[0]))
                .query((row, n) -> new Trouble(
                        Rows.id(row, "subject_id"), Rows.instant(row, "opened_at"), row.getString("headline")))
                .list()
                .stream()
                .collect(Collectors.groupingBy(Trouble::presetId));
    }

    /** What an open alert says of a preset. */
    record Trouble(UUID presetId, Instant since, String headline) {}

    /** The time zone whose days a plan counts: the facility's, or the one that most rooms are in. */
    ZoneId zone(@Nullable UUID facilityId) {
        return jdbc.sql("""
                        select time_zone from (
                            select f.time_zone, 1000000 as weight from facility f where f.id = :facility
                            union all
                            select r.time_zone, count(*) from room r
                            where r.retired_at is null and (:facility::uuid is null or r.facility_id = :facility)
                            group by r.time_zone) z
                        order by weight desc, time_zone limit 1
                        """)
                .param("facility", facilityId)
                .query(String.class)
                .optional()
                .map(ZoneId::of)
                .orElse(ZoneOffset.UTC);
    }

    String facilityName(UUID id) {
        return jdbc.sql("select name from facility where id = :id")
                .param("id", id)
                .query(String.class)
                .single();
    }

    boolean isFacility(UUID id) {
        return Rows.exists(jdbc, "facility", id);
    }

    boolean isRoom(UUID id) {
        return Rows.exists(jdbc, "room", id);
    }

    /** The states that presets were left in, by preset, oldest first. */
    Map<UUID, List<LeftState>> leftStates(Collection<UUID> presetIds) {
        return jdbc
                .sql(LEFT)
                .param("presets", presetIds.toArray(new UUID[0]))
                .query((row, n) -> new LeftState(
                        Rows.id(row, "preset_id"),
                        Rows.instant(row, "since"),
                        Rows.idOrNull(row, "run_id"),
                        row.getString("operator")))
                .list()
                .stream()
                .collect(Collectors.groupingBy(LeftState::presetId));
    }

    /** The counters of displays, each oldest first, as people answered the questions about them. */
    Map<UUID, Counter> counters(Collection<UUID> displayIds) {
        var ids = displayIds.toArray(new UUID[0]);
        var mistyped = mistyped(ids);
        var rows = jdbc.sql("""
                        select h.display_id, h.at, h.hours, h.run_id,
                               (select a.answer from panel_hours_answer a where a.value_id = h.id) as answer
                        from counted_panel_hours h where h.display_id = any (:displays) order by h.at, h.hours, h.id""")
                .param("displays", ids)
                .query((row, n) -> new CounterRow(
                        Rows.id(row, "display_id"),
                        Rows.instant(row, "at"),
                        row.getDouble("hours"),
                        Rows.idOrNull(row, "run_id"),
                        row.getString("answer")))
                .list();
        return rows.stream()
                .collect(Collectors.groupingBy(
                        CounterRow::displayId,
                        Collectors.collectingAndThen(Collectors.toList(), ofDisplay -> counter(ofDisplay, mistyped))));
    }

    private record CounterRow(
            UUID displayId,
            Instant at,
            double hours,
            @Nullable UUID runId,
            @Nullable String answer) {}

    private static Counter counter(List<CounterRow> rows, Set<UUID> mistyped) {
        var values = new ArrayList<Counter.Value>();
        var era = Counter.Era.FIRST;
        for (var row : rows) {
            era = era.after(row.answer() == null ? null : Words.of(PanelHoursAnswerKind.class, row.answer()));
            values.add(new Counter.Value(row.at(), row.hours(), row.runId(), era));
        }
        return new Counter(values, mistyped);
    }

    private Set<UUID> mistyped(UUID[] displayIds) {
        return Set.copyOf(
                jdbc.sql("""
                        select distinct h.run_id from panel_hours_answer a join panel_hours h on h.id = a.value_id
                        where a.answer = 'typing-error' and h.run_id is not null and h.display_id = any (:displays)""").param("displays", displayIds).query(UUID.class).list());
    }

    private static PresetLine line(ResultSet row) throws SQLException {
        return new PresetLine(
                Rows.id(row, "id"),
                Rows.id(row, "display_id"),
                row.getString("path"),
                Rows.id(row, "facility_id"),
                Rows.idOrNull(row, "room_id"),
                row.getString("room"),
                ZoneId.of(row.getString("time_zone")),
                row.getString("model"),
                row.getString("panel_technology"),
                row.getInt("warm_up_minutes"),
                row.getBoolean("hero"),
                Rows.idOrNull(row, "baseline_run_id"),
                Rows.instantOrNull(row, "baseline_at"),
                Rows.idOrNull(row, "baseline_instrument_id"),
                row.getString("tolerance_set"),
                Rows.intOrNull(row, "recalibration_days"),
                Rows.intOrNull(row, "recalibration_panel_hours"),
                Rows.doubleOrNull(row, "luminance_limit"),
                Rows.doubleOrNull(row, "white_limit"));
    }
}
