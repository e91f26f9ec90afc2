package panelbook.app.planning.crew;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
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
import panelbook.wire.Absence;
import panelbook.wire.AbsenceDraft;

/** When calibrators are away. */
@Component
public class Absences {

    private static final String SELECT = """
            select a.*, c.name as calibrator from calibrator_absence a join calibrator c on c.id = a.calibrator_id""";

    private final Calibrators calibrators;
    private final JdbcClient jdbc;
    private final Clock clock;

    Absences(Calibrators calibrators, JdbcClient jdbc, Clock clock) {
        this.calibrators = calibrators;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Notes days away; the same draft again is harmless. */
    @Transactional
    Added<Absence> add(UUID calibratorId, AbsenceDraft draft) {
        new Checks()
                .that(!draft.toDay().isBefore(draft.fromDay()), "/toDay", "Must not be before " + draft.fromDay() + ".")
                .that(Dates.sensible(draft.fromDay()), "/fromDay", Dates.WORDS)
                .that(Dates.sensible(draft.toDay()), "/toDay", Dates.WORDS)
                .text("/reason", draft.reason(), 10_000)
                .refuse();
        calibrators.get(calibratorId);
        var isNew = jdbc.sql("""
                        insert into calibrator_absence (id, calibrator_id, from_day, to_day, reason, recorded_at, recorded_by)
                        values (:id, :calibrator, :from, :to, :reason, :now, :by) on conflict (id) do nothing""")
                        .param("id", draft.id())
                        .param("calibrator", calibratorId)
                        .param("from", draft.fromDay())
                        .param("to", draft.toDay())
                        .param("reason", draft.reason())
                        .param("now", Rows.at(clock.instant()))
                        .param("by", Caller.current().holder())
                        .update()
                > 0;
        var there = get(draft.id());
        var same = there.calibratorId().equals(calibratorId)
                && draft.equals(new AbsenceDraft(there.id(), there.fromDay(), there.toDay(), there.reason()));
        Repeats.mustBeSame(same, "absence", draft.id());
        return new Added<>(there, isNew);
    }

    /** Takes days away back; once more is harmless. */
    @Transactional
    Absence cancel(UUID id) {
        get(id);
        jdbc.sql("""
                        update calibrator_absence set cancelled_at = :now, cancelled_by = :by
                        where id = :id and cancelled_at is null""")
                .param("id", id)
                .param("now", Rows.at(clock.instant()))
                .param("by", Caller.current().holder())
                .update();
        return get(id);
    }

    @Transactional(readOnly = true)
    List<Absence> of(UUID calibratorId, boolean cancelledToo) {
        calibrators.get(calibratorId);
        var query = new Query(SELECT).where("a.calibrator_id = :calibrator", "calibrator", calibratorId);
        return (cancelledToo ? query : query.where("a.cancelled_at is null"))
                .list(jdbc, Absences::absence, "a.from_day, a.to_day, a.id");
    }

    /** Those that hold and touch the days from one to another, both included. */
    public List<Absence> during(LocalDate from, LocalDate to) {
        return new Query(SELECT)
                .where("a.cancelled_at is null")
                .where("a.from_day <= :to", "to", to)
                .where("a.to_day >= :from", "from", from)
                .list(jdbc, Absences::absence, "a.from_day, a.id");
    }

    private Absence get(UUID id) {
        return new Query(SELECT)
                .where("a.id = :id", "id", id)
                .one(jdbc, Absences::absence)
                .orElseThrow(() -> Refusal.notFound("absence", id));
    }

    private static Absence absence(ResultSet row, int n) throws SQLException {
        return new Absence(
                Rows.id(row, "id"),
                Rows.id(row, "calibrator_id"),
                row.getString("calibrator"),
                row.getObject("from_day", LocalDate.class),
                row.getObject("to_day", LocalDate.class),
                row.getString("reason"),
                Rows.instant(row, "recorded_at"),
                row.getString("recorded_by"),
                Rows.instantOrNull(row, "cancelled_at"),
                row.getString("cancelled_by"));
    }
}
