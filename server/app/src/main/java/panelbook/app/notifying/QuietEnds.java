package panelbook.app.notifying;

import java.time.Clock;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.database.Rows;

/**
 * Settles quiet periods that are over. Of the events that one kept from a channel, the last of each alert is told if there
 * is anything to know: the alert is still open, or it is closed and the channel had been told of its opening before the
 * period. All others are left out, with the reason beside them.
 */
@Component
class QuietEnds {

    private static final Logger LOG = LoggerFactory.getLogger(QuietEnds.class);

    private final JdbcClient jdbc;
    private final TransactionTemplate transactions;
    private final Clock clock;

    QuietEnds(JdbcClient jdbc, TransactionTemplate transactions, Clock clock) {
        this.jdbc = jdbc;
        this.transactions = transactions;
        this.clock = clock;
    }

    @Scheduled(
            initialDelayString = "${panelbook.notify.first:PT5S}",
            fixedDelayString = "${panelbook.notify.quiet-every:PT5S}")
    void run() {
        try {
            over().forEach(this::tryToSettle);
        } catch (RuntimeException e) {
            LOG.warn("Quiet periods cannot be read, trying again: {}", e.getMessage());
        }
    }

    private void tryToSettle(UUID period) {
        try {
            transactions.executeWithoutResult(status -> settle(period));
        } catch (RuntimeException e) {
            LOG.error("The quiet period {} could not be ended, trying again", period, e);
        }
    }

    private List<UUID> over() {
        return jdbc.sql("""
                        select id from quiet_period where settled_at is null and coalesce(ended_at, until_at) <= :now
                        """)
                .param("now", Rows.at(clock.instant()))
                .query(UUID.class)
                .list();
    }

    private void settle(UUID period) {
        // whoever writes an event into the period holds its row: nothing can be added after this
        var ours = jdbc.sql("select id from quiet_period where id = :id and settled_at is null for update skip locked")
                .param("id", period)
                .query(UUID.class)
                .optional();
        if (ours.isEmpty()) {
            return;
        }
        jdbc.sql("update quiet_period set settled_at = :now where id = :id")
                .param("id", period)
                .param("now", Rows.at(clock.instant()))
                .update();
        jdbc.sql("""
                        select distinct n.channel_id, n.alert_id, a.closed_at is not null as closed,
                               a.held_by is not null as held
                        from notification n join alert a on a.id = n.alert_id
                        where n.quiet_id = :id and n.state = 'quiet'
                        order by n.channel_id, n.alert_id
                        """)
                .param("id", period)
                .query((row, n) -> new Kept(
                        period,
                        Rows.id(row, "channel_id"),
                        Rows.id(row, "alert_id"),
                        row.getBoolean("closed"),
                        row.getBoolean("held")))
                .list()
                .forEach(this::settle);
    }

    private void settle(Kept kept) {
        var other = Outbox.quiet(jdbc, kept.alert(), clock.instant());
        if (other != null) {
            jdbc.sql("""
                            update notification set quiet_id = :other
                            where quiet_id = :period and state = 'quiet' and channel_id = :channel and alert_id = :alert
                            """)
                    .param("other", other)
                    .param("period", kept.period())
                    .param("channel", kept.channel())
                    .param("alert", kept.alert())
                    .update();
        } else if (kept.closed() ? toldBefore(kept) : !kept.held()) {
            var last = last(kept);
            leaveOut(kept, last, "It came in a quiet period, whose end tells of the alert once.");
            tell(last);
        } else {
            leaveOut(
                    kept,
                    null,
                    kept.closed()
                            ? "It opened and closed within a quiet period."
                            : "It came in a quiet period, at whose end another alert explains it.");
        }
    }

    /** Whether the channel knows that the alert was open, since it last opened before what the period kept. */
    private boolean toldBefore(Kept kept) {
        return jdbc.sql("""
                        select coalesce((
                            select e.kind <> 'closed' from notification n join alert_event e on e.seq = n.event_seq
                            where n.channel_id = :channel and n.alert_id = :alert
                              and (n.state in ('waiting', 'in-message') or n.why = :movement)
                            order by n.event_seq desc limit 1), false)
                        """)
                .param("movement", Outbox.TOLD_AS_MOVEMENT)
                .param("channel", kept.channel())
                .param("alert", kept.alert())
                .query(Boolean.class)
                .single();
    }

    private UUID last(Kept kept) {
        return jdbc.sql("""
                        select id from notification
                        where quiet_id = :period and state = 'quiet' and channel_id = :channel and alert_id = :alert
                        order by event_seq desc limit 1
                        """)
                .param("period", kept.period())
                .param("channel", kept.channel())
                .param("alert", kept.alert())
                .query(UUID.class)
                .single();
    }

    private void tell(UUID notification) {
        jdbc.sql("""
                        update notification set state = 'waiting', after_quiet = true, not_before = :now,
                                                why = 'A quiet period ended. ' || why
                        where id = :id
                        """)
                .param("id", notification)
                .param("now", Rows.at(clock.instant()))
                .update();
    }

    private void leaveOut(Kept kept, @Nullable UUID butFor, String why) {
        jdbc.sql("""
                        update notification set state = 'left-out', why = :why
                        where quiet_id = :period and state = 'quiet' and channel_id = :channel and alert_id = :alert
                          and id is distinct from :but::uuid
                        """)
                .param("why", why)
                .param("period", kept.period())
                .param("channel", kept.channel())
                .param("alert", kept.alert())
                .param("but", butFor)
                .update();
    }

    /** What a period kept from a channel of one alert. */
    private record Kept(UUID period, UUID channel, UUID alert, boolean closed, boolean held) {}
}
