package panelbook.app.readiness;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.runs.PresetPath;
import panelbook.wire.ReadinessChange;

/** When something was entered that the readiness of a room may rest on, and what it was. */
@Component
class Happenings {

    // displays that ever stood in the room; what was entered of one while it stood elsewhere changes nothing here
    private static final String INVOLVED = """
            with displays as (select distinct display_id as id from history.display_stay where room_id = :room),
                 presets as (select distinct id from history.preset where display_id in (select id from displays)),
                 targets as (select distinct target_id as id from history.preset where id in (select id from presets)),
                 sets as (select distinct tolerance_set_id as id from target_revision where target_id in (select id from targets)),
                 versions as (
                     select entered_at, left_at from history.room where id = :room
                     union all select entered_at, left_at from history.display_stay where display_id in (select id from displays)
                     union all select entered_at, left_at from history.display where id in (select id from displays)
                     union all select entered_at, left_at from history.preset where id in (select id from presets)
                     union all select entered_at, left_at from history.hero where room_id = :room
                     union all select entered_at, left_at from history.baseline where preset_id in (select id from presets)
                     union all select entered_at, left_at from history.standing_finding
                               where preset_id in (select id from presets)
                     union all select entered_at, left_at from history.alert
                               where subject_id = :room or subject_id in (select id from presets)
                     union all select entered_at, left_at from history.target where id in (select id from targets)
                     union all select entered_at, left_at from history.tolerance_set where id in (select id from sets)),
                 moments as (
                     select entered_at as at from versions
                     union select left_at from versions
                     union select entered_at from run where preset_id in (select id from presets)
                     union select w.entered_at from run_withdrawal w join run r on r.id = w.run_id
                           where r.preset_id in (select id from presets)
                     union select entered_at from panel_hours where display_id in (select id from displays)
                     union select entered_at from panel_hours_answer a
                           where a.value_id in (select id from panel_hours where display_id in (select id from displays))
                     union select entered_at from match where follower_preset_id in (select id from presets)
                     union select w.entered_at from match_withdrawal w join match m on m.id = w.match_id
                           where m.follower_preset_id in (select id from presets))
            select at from moments where at > :from and at < :to order by at
            """;

    // only of displays that stood in the room at that moment, or left it then: others may have changed at the same one,
    // and
    // may come here later
    private static final String WHAT = """
            with stood as (select display_id, entered_at as since, coalesce(left_at, 'infinity') as until
                           from history.display_stay where room_id = :room and upper_inf(during))
            select r.entered_at as at, 'run' as kind, r.id, r.received_from as by, 0 as rank,
                   r.purpose || ' of ' || %1$s || ' by ' || r.operator || ' with ' || i.name as text
            from run r join instrument i on i.id = r.instrument_id %2$s
            where r.entered_at = any (cast(:moments as timestamptz[])) and p.display_id = any (:displays)
              and exists (select from stood where display_id = p.display_id and r.entered_at between since and until)
            union all
            select w.entered_at, 'run-withdrawal', r.id, w.withdrawn_by, 0, 'run of ' || %1$s || ' withdrawn: ' || w.reason
            from run_withdrawal w join run r on r.id = w.run_id %2$s
            where w.entered_at = any (cast(:moments as timestamptz[])) and p.display_id = any (:displays)
              and exists (select from stood where display_id = p.display_id and w.entered_at between since and until)
            union all
            select r.entered_at, 'match', r.id, r.recorded_by, 1, 'match of ' || %1$s || ' signed off by ' || r.operator
            from match r %3$s
            where r.entered_at = any (cast(:moments as timestamptz[])) and p.display_id = any (:displays)
              and exists (select from stood where display_id = p.display_id and r.entered_at between since and until)
            union all
            select w.entered_at, 'match-withdrawal', r.id, w.withdrawn_by, 1,
                   'match of ' || %1$s || ' for ' || r.operator || ' withdrawn: ' || w.reason
            from match_withdrawal w join match r on r.id = w.match_id %3$s
            where w.entered_at = any (cast(:moments as timestamptz[])) and p.display_id = any (:displays)
              and exists (select from stood where display_id = p.display_id and w.entered_at between since and until)
            union all
            select e.entered_at, 'alert', e.alert_id, e.actor, 3, 'alert ' || e.kind || ': ' || e.headline || coalesce(' ' || e.note, '')
            from alert_event e join alert a on a.id = e.alert_id
            where e.entered_at = any (cast(:moments as timestamptz[]))
              and (a.subject_id = :room or a.subject_id in (
                  select x.id from preset x join stood on stood.display_id = x.display_id
                  where x.display_id = any (:displays) and e.entered_at between stood.since and stood.until))
            union all
            select h.entered_at, 'hero', h.preset_id, h.named_by, 1, %1$s || ' named the hero'
            from history.hero h %4$s
            where h.entered_at = any (cast(:moments as timestamptz[])) and h.room_id = :room and upper_inf(h.during)
            union all
            select s.entered_at, 'display-stay', s.display_id, s.moved_by, 0,
                   d.name || ' came to ' || r.name || coalesce(': ' || s.reason, '')
            from history.display_stay s join display d on d.id = s.display_id join room r on r.id = s.room_id
            where s.entered_at = any (cast(:moments as timestamptz[])) and s.display_id = any (:displays) and upper_inf(s.during)
              and exists (select from stood where display_id = s.display_id and s.entered_at between since and until)
            union all
            select h.entered_at, 'panel-hours', h.display_id, h.recorded_by, 2,
                   'counter of ' || d.name || ' at ' || round(h.hours::numeric, 1) || ' h'
            from panel_hours h join display d on d.id = h.display_id
            where h.entered_at = any (cast(:moments as timestamptz[])) and h.display_id = any (:displays) and h.run_id is null
              and exists (select from stood where display_id = h.display_id and h.entered_at between since and until)
            union all
            select c.entered_at, 'correction', c.instrument_id, c.recorded_by, 0, 'correction of ' || i.name || ' made'
            from instrument_correction c join instrument i on i.id = c.instrument_id
            where c.entered_at = any (cast(:moments as timestamptz[]))
            union all
            select w.entered_at, 'correction-withdrawal', c.instrument_id, w.withdrawn_by, 0,
                   'correction of ' || i.name || ' withdrawn: ' || w.reason
            from instrument_correction_withdrawal w join instrument_correction c on c.id = w.correction_id
            join instrument i on i.id = c.instrument_id
            where w.entered_at = any (cast(:moments as timestamptz[]))
            union all
            select t.entered_at, 'tolerance-set', s.id, t.recorded_by, 0, 'limits of ' || s.name || ' edited'
            from tolerance_set_revision t join tolerance_set s on s.id = t.tolerance_set_id
            where t.entered_at = any (cast(:moments as timestamptz[]))
            union all
            select t.entered_at, 'target', s.id, t.recorded_by, 0, 'target ' || s.name || ' edited'
            from target_revision t join target s on s.id = t.target_id
            where t.entered_at = any (cast(:moments as timestamptz[]))
            order by at, rank, text, id
            """.formatted(
                    PresetPath.expression(""),
                    PresetPath.joins("", "r.preset_id"),
                    PresetPath.joins("", "r.follower_preset_id"),
                    PresetPath.joins("", "h.preset_id"));

    private final JdbcClient jdbc;

    Happenings(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Moments of a period at which something was entered, both ends excluded, in order. */
    List<Instant> between(UUID roomId, Instant from, Instant to) {
        return jdbc.sql(INVOLVED)
                .param("room", roomId)
                .param("from", Rows.at(from))
                .param("to", Rows.at(to))
                .query((row, n) -> Rows.instant(row, "at"))
                .list();
    }

    /** What was entered at some moments, by moment; nothing for one at which only the passing of time counts. */
    Map<Instant, List<ReadinessChange>> at(UUID roomId, Collection<Instant> moments) {
        if (moments.isEmpty()) {
            return Map.of();
        }
        var displays = jdbc.sql("select distinct display_id from history.display_stay where room_id = :room")
                .param("room", roomId)
                .query(UUID.class)
                .list();
        return jdbc
                .sql(WHAT)
                .param("room", roomId)
                .param("displays", displays.toArray(new UUID[0]))
                .param("moments", moments.stream().map(Instant::toString).toArray(String[]::new))
                .query((row, n) -> Map.entry(
                        Rows.instant(row, "at"),
                        new ReadinessChange(
                                row.getString("kind"), row.getString("text"), row.getString("by"), Rows.id(row, "id"))))
                .list()
                .stream()
                .collect(Collectors.groupingBy(
                        Map.Entry::getKey, Collectors.mapping(Map.Entry::getValue, Collectors.toList())));
    }
}
