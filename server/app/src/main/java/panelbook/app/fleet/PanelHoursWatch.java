package panelbook.app.fleet;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Rows;

/** Asks about values of panel-hours counters that do not go together, whoever brought them. */
@Component
public class PanelHoursWatch {

    private final JdbcClient jdbc;
    private final Clock clock;

    PanelHoursWatch(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Looks at the counter of a display whose values have changed: new questions are asked, those made needless are dropped. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lookAt(UUID displayId) {
        var doubts = CounterDoubts.in(values(displayId));
        var asked = asked(displayId);
        if (doubts.isEmpty() && asked.isEmpty()) {
            return;
        }
        var now = clock.instant();
        doubts.forEach(doubt -> ask(displayId, doubt, now));
        var found = doubts.stream().map(doubt -> doubt.value().id()).toList();
        asked.stream().filter(value -> !found.contains(value)).forEach(value -> dissolve(value, now));
    }

    private List<CounterDoubts.Value> values(UUID displayId) {
        return jdbc.sql("""
                        select h.id, h.at, h.hours,
                               exists (select from panel_hours_question q join panel_hours_answer a on a.question_id = q.id
                                       where q.value_id = h.id) as settled
                        from counted_panel_hours h where h.display_id = ? order by h.at, h.hours, h.id""")
                .param(displayId)
                .query((row, n) -> new CounterDoubts.Value(
                        row.getLong("id"), Rows.instant(row, "at"), row.getDouble("hours"), row.getBoolean("settled")))
                .list();
    }

    private List<Long> asked(UUID displayId) {
        return jdbc.sql("""
                        select value_id from panel_hours_question q where display_id = ? and dissolved_at is null
                        and not exists (select from panel_hours_answer a where a.question_id = q.id)""").param(displayId).query(Long.class).list();
    }

    private void ask(UUID displayId, CounterDoubts.Doubt doubt, Instant now) {
        jdbc.sql("""
                        insert into panel_hours_question (id, display_id, value_id, kind, before_id, after_id, asked_at)
                        values (:id, :display, :value, :kind, :before, :after, :now)
                        on conflict (value_id) do update
                        set kind = excluded.kind, before_id = excluded.before_id, after_id = excluded.after_id, dissolved_at = null
                        where not exists (select from panel_hours_answer a where a.question_id = panel_hours_question.id)""")
                .param("id", UUID.randomUUID())
                .param("display", displayId)
                .param("value", doubt.value().id())
                .param("kind", doubt.kind().toString())
                .param("before", doubt.before().id())
                .param("after", id(doubt.after()))
                .param("now", Rows.at(now))
                .update();
    }

    private static @Nullable Long id(CounterDoubts.@Nullable Value value) {
        return value == null ? null : value.id();
    }

    private void dissolve(long valueId, Instant now) {
        jdbc.sql("update panel_hours_question set dissolved_at = :now where value_id = :value")
                .param("now", Rows.at(now))
                .param("value", valueId)
                .update();
    }
}
