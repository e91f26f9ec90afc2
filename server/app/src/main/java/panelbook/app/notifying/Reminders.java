package panelbook.app.notifying;

import java.time.Clock;
import java.util.List;
import java.util.UUID;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.alerts.AlertHistory;
import panelbook.app.database.Rows;
import panelbook.wire.AlertEventKind;

/**
 * Escalates alerts that nobody acknowledged in time, once per opening, and reminds of those that nobody acknowledged.
 * Alerts that another one explains, or that a quiet period covers, are left alone; the time of a quiet period does not
 * count, since people could not know. The lock of the alerts' history keeps other instances of the service out.
 */
@Component
class Reminders {

    private static final Logger LOG = LoggerFactory.getLogger(Reminders.class);

    /** Alerts that nobody has in hand, a step not as the movement that it showed as first either; since when people could know, and since when they heard nothing. */
    private static final String NOT_IN_HAND = """
            select a.id, a.facility_id, s.since, s.escalated, greatest(s.since, s.last_told) as quiet_since
            from alert a
            left join preset p on p.id = a.subject_id
            cross join lateral (
                select greatest(o.at, (select max(q.settled_at) from quiet_period q
                                       where q.room_id = a.room_id or q.display_id = p.display_id)) as since,
                       (select max(e.at) from alert_event e where e.alert_id = a.id and e.seq > o.seq
                                                              and e.kind in ('reminded', 'escalated')) as last_told,
                       exists (select from alert_event e where e.alert_id = a.id and e.seq > o.seq
                                                           and e.kind = 'escalated') as escalated
                from alert_event o where o.alert_id = a.id and o.kind in ('opened', 'reopened', 'released')
                order by o.seq desc limit 1) s
            where a.closed_at is null and a.acknowledged_at is null and a.held_by is null
              and not exists (select from quiet_period q where q.settled_at is null and q.from_at <= :now
                                and (q.room_id = a.room_id or q.display_id = p.display_id))
              and not exists (select from alert h join notification n on n.alert_id = a.id
                              where h.held_by = a.id and h.subject_id = a.subject_id and h.cause = 'moved'
                                and h.closed_at is null and h.acknowledged_at is not null
                                and n.created_at >= a.opened_at and n.why = '%s')
            """.formatted(Outbox.TOLD_AS_MOVEMENT);

    private static final String DUE = """
            with house as (select :escalate::integer as escalate, :remind::integer as remind),
                 waiting as (%s)
            select w.id,
                   (not w.escalated and w.since + make_interval(mins => t.escalate) <= :now) is true as escalate,
                   t.escalate as minutes
            from waiting w left join notification_settings n on n.facility_id = w.facility_id
            cross join house h
            cross join lateral (
                select case when n.facility_id is null then h.escalate else n.escalate_after_minutes end as escalate,
                       case when n.facility_id is null then h.remind else n.remind_every_minutes end as remind) t
            where (not w.escalated and w.since + make_interval(mins => t.escalate) <= :now)
               or w.quiet_since + make_interval(mins => t.remind) <= :now
            order by w.since, w.id
            """.formatted(NOT_IN_HAND);

    private final JdbcClient jdbc;
    private final AlertHistory history;
    private final SettingsBook settings;
    private final TransactionTemplate transactions;
    private final Clock clock;

    Reminders(
            JdbcClient jdbc,
            AlertHistory history,
            SettingsBook settings,
            TransactionTemplate transactions,
            Clock clock) {
        this.jdbc = jdbc;
        this.history = history;
        this.settings = settings;
        this.transactions = transactions;
        this.clock = clock;
    }

    @Scheduled(
            initialDelayString = "${panelbook.notify.first:PT5S}",
            fixedDelayString = "${panelbook.notify.remind-look:PT15S}")
    void run() {
        try {
            // looked for without the lock first: mostly there is nothing, and uploads must not wait for that
            if (!due().isEmpty()) {
                transactions.executeWithoutResult(status -> {
                    history.lock();
                    due().forEach(this::tell);
                });
            }
        } catch (RuntimeException e) {
            LOG.warn("Alerts could not be reminded of, trying again: {}", e.getMessage());
        }
    }

    private List<Due> due() {
        var house = settings.of(null);
        return jdbc.sql(DUE)
                .param("now", Rows.at(clock.instant()))
                .param("escalate", house.escalateAfterMinutes())
                .param("remind", house.remindEveryMinutes())
                .query((row, n) -> new Due(Rows.id(row, "id"), row.getBoolean("escalate"), row.getInt("minutes")))
                .list();
    }

    private void tell(Due due) {
        if (due.escalate()) {
            history.add(
                    due.alert(),
                    AlertEventKind.ESCALATED,
                    "Nobody acknowledged it within " + duration(due.minutes()) + ".");
        } else {
            history.add(due.alert(), AlertEventKind.REMINDED, "It lasts, and nobody acknowledged it.");
        }
    }

    private static String duration(int minutes) {
        return minutes % 60 == 0 ? minutes / 60 + " h" : minutes + " min";
    }

    private record Due(UUID alert, boolean escalate, int minutes) {}
}
