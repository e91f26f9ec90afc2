package panelbook.app.assessment;

import java.time.Clock;
import java.util.List;
import java.util.UUID;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.scheduling.annotation.EnableScheduling;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.database.Rows;

/**
 * Judges presets that nobody uploads to: those whose limits or aims were edited since they were judged, and those whose baseline
 * grew too old meanwhile. One instance of the service does it at a time, by a lock in the database.
 */
@Component
@EnableScheduling
public class Sweep {

    private static final Logger LOG = LoggerFactory.getLogger(Sweep.class);
    private static final long LOCK = 0x7377656570L;

    // a due alert that a person closed is not opened again for the same baseline
    private static final String WAITING = """
            select p.id from preset p
            join display d on d.id = p.display_id and d.retired_at is null
            join target t on t.id = p.target_id
            join target_revision tr on tr.target_id = t.id and tr.revision = t.version
            join tolerance_set s on s.id = tr.tolerance_set_id
            join tolerance_set_revision sr on sr.tolerance_set_id = s.id and sr.revision = s.version
            left join counted_baseline b on b.preset_id = p.id and upper_inf(b.during)
            left join run br on br.id = b.run_id
            left join lateral (select hours from counted_panel_hours where display_id = d.id
                               order by at desc, id desc limit 1) ph on true
            where p.retired_at is null
              and exists (select 1 from counted_run where preset_id = p.id)
              and (exists (select 1 from standing_finding sf join finding f on f.id = sf.finding_id
                           where sf.preset_id = p.id
                             and ((f.tolerance_set_id, f.tolerance_set_revision) is distinct from (s.id, s.version)
                                  or f.target_revision <> t.version))
                   or ((lower(b.during) + make_interval(days => sr.recalibration_days + 1) <= :now::timestamptz
                        or ph.hours - (select pc.hours from counted_panel_hours pc where pc.run_id = br.id order by pc.id desc limit 1)
                           > sr.recalibration_panel_hours)
                       and not exists (select 1 from alert a
                                       where a.subject_id = p.id and a.cause = 'recalibration-due'
                                         and (a.closed_at is null
                                              or a.opened_at >= (select min(declared_at) from baseline
                                                                 where run_id = b.run_id)))))
            order by p.id
            """;

    private final JdbcClient jdbc;
    private final Verdicts verdicts;
    private final TransactionTemplate transactions;
    private final Clock clock;

    Sweep(JdbcClient jdbc, Verdicts verdicts, TransactionTemplate transactions, Clock clock) {
        this.jdbc = jdbc;
        this.verdicts = verdicts;
        this.transactions = transactions;
        this.clock = clock;
    }

    /** Judges every preset that waits for it; a preset that fails is logged and does not keep the others waiting. */
    @Scheduled(
            initialDelayString = "${panelbook.sweep.first:PT1M}",
            fixedDelayString = "${panelbook.sweep.every:PT10M}")
    public void run() {
        for (var preset : waiting()) {
            try {
                transactions.executeWithoutResult(status -> judge(preset));
            } catch (RuntimeException e) {
                LOG.error("Preset {} could not be judged anew", preset, e);
            }
        }
    }

    private List<UUID> waiting() {
        return jdbc.sql(WAITING)
                .param("now", Rows.at(clock.instant()))
                .query(UUID.class)
                .list();
    }

    private void judge(UUID preset) {
        var ours = jdbc.sql("select pg_try_advisory_xact_lock(:lock)")
                .param("lock", LOCK)
                .query(Boolean.class)
                .single();
        if (ours) {
            verdicts.judgeLatestOf(List.of(preset));
        }
    }
}
