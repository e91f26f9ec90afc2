package panelbook.app.matching;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.wire.ControlRange;
import panelbook.wire.ControlRangeDraft;

/** How far the controls of displays go, as people stated it; the latest statement holds. */
@Component
class ControlRanges {

    private final JdbcClient jdbc;
    private final Clock clock;

    ControlRanges(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** The statements that hold on a display, by control and level. */
    @Transactional(readOnly = true)
    List<ControlRange> of(UUID displayId) {
        mustBe(displayId);
        return jdbc.sql("""
                        select distinct on (control, level) * from control_range where display_id = :display
                        order by control, level, recorded_at desc, id
                        """)
                .param("display", displayId)
                .query((row, n) -> range(row))
                .list();
    }

    /** States how far a control goes; what is stated already need not be stated again. */
    @Transactional
    Added<ControlRange> state(UUID displayId, ControlRangeDraft draft, Caller caller) {
        var checks = DraftChecks.control(new Checks(), "", draft.control(), draft.level());
        checks.range("/least", draft.least(), -DraftChecks.MOST_CLICKS, 0)
                .range("/most", draft.most(), 0, DraftChecks.MOST_CLICKS)
                .refuse();
        var known = find(displayId, draft);
        if (known != null && known.least() == draft.least() && known.most() == draft.most()) {
            return new Added<>(known, false);
        }
        var now = after(known, Rows.kept(clock.instant()));
        jdbc.sql("""
                        insert into control_range (id, display_id, control, level, least, most, recorded_at, recorded_by)
                        values (:id, :display, :control, :level, :least, :most, :now, :by)
                        """)
                .param("id", UUID.randomUUID())
                .param("display", displayId)
                .param("control", draft.control())
                .param("level", draft.level())
                .param("least", draft.least())
                .param("most", draft.most())
                .param("now", Rows.at(now))
                .param("by", caller.holder())
                .update();
        return new Added<>(
                new ControlRange(draft.control(), draft.level(), draft.least(), draft.most(), now, caller.holder()),
                true);
    }

    /** The latest statement holds, so two within a tick of the clock still follow each other. */
    private static Instant after(@Nullable ControlRange known, Instant now) {
        return known == null || now.isAfter(known.recordedAt())
                ? now
                : known.recordedAt().plus(1, ChronoUnit.MICROS);
    }

    private @Nullable ControlRange find(UUID displayId, ControlRangeDraft draft) {
        return of(displayId).stream()
                .filter(range ->
                        range.control().equals(draft.control()) && range.level().equals(draft.level()))
                .findFirst()
                .orElse(null);
    }

    private void mustBe(UUID displayId) {
        var there = jdbc.sql("select exists (select 1 from display where id = :id)")
                .param("id", displayId)
                .query(Boolean.class)
                .single();
        if (!there) {
            throw Refusal.notFound("display", displayId);
        }
    }

    private static ControlRange range(ResultSet row) throws SQLException {
        return new ControlRange(
                row.getString("control"),
                row.getString("level"),
                row.getInt("least"),
                row.getInt("most"),
                Rows.instant(row, "recorded_at"),
                row.getString("recorded_by"));
    }
}
