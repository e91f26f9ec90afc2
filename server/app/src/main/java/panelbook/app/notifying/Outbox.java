package panelbook.app.notifying;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.event.EventListener;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.alerts.AlertNoted;
import panelbook.app.database.Rows;
import panelbook.wire.AlertEventKind;
import tools.jackson.databind.json.JsonMapper;

/**
 * Writes down what an event of an alert owes to whom, in the transaction of the event: either both are in the book or
 * neither. It sends nothing.
 */
@Component
class Outbox {

    /** Told of this alert since it last opened: what was left out, was not told. */
    private static final String TOLD = """
            exists (select from notification n where n.channel_id = c.id and n.alert_id = :alert
                      and n.state <> 'left-out'
                      and n.event_seq > coalesce((select max(e.seq) from alert_event e
                                                  where e.alert_id = :alert and e.kind = 'closed' and e.seq < :seq), 0))
            """;

    private static final String CONCERNED = """
            ((c.facility_id is null or a.facility_id is null or c.facility_id = a.facility_id)
             and (cardinality(c.causes) = 0 or a.cause = any (c.causes)))
            """;

    private final JdbcClient jdbc;
    private final SettingsBook settings;
    private final JsonMapper json;
    private final Clock clock;

    Outbox(JdbcClient jdbc, SettingsBook settings, JsonMapper json, Clock clock) {
        this.jdbc = jdbc;
        this.settings = settings;
        this.json = json;
        this.clock = clock;
    }

    @EventListener
    void on(AlertNoted event) {
        switch (event.kind()) {
            case OPENED, REOPENED, RELEASED -> first(event);
            case ESCALATED -> owe(event, CONCERNED, "Nobody acknowledged it in time.");
            case REMINDED -> owe(event, TOLD, "It lasts, and nobody acknowledged it.");
            case CLOSED -> owe(event, TOLD, "Whoever was told of an alert is told of its end.");
            case UPDATED -> worse(event).ifPresent(why -> owe(event, TOLD, why));
            case ACKNOWLEDGED, HELD_BACK -> {}
        }
    }

    private void first(AlertNoted event) {
        if (!event.heldBack()) {
            var why = event.kind() == AlertEventKind.OPENED
                    ? "It opened."
                    : event.kind() == AlertEventKind.REOPENED
                            ? "It came back."
                            : "What had explained it is over, and it lasts.";
            owe(event, "not c.escalations_only and " + CONCERNED, why);
        }
    }

    private Optional<String> worse(AlertNoted event) {
        if (event.heldBack()) {
            return Optional.empty();
        }
        return jdbc.sql("""
                        select e.detail from alert_event e
                        where e.seq = (select max(event_seq) from notification
                                       where alert_id = :alert and state <> 'left-out')
                        """)
                .param("alert", event.alertId())
                .query(String.class)
                .optional()
                .flatMap(told -> Worsening.between(json.readTree(told), json.readTree(event.detail())));
    }

    private void owe(AlertNoted event, String toWhom, String why) {
        var quiet = quiet(event);
        jdbc.sql("""
                        insert into notification (id, channel_id, alert_id, event_seq, state, why, quiet_id, created_at,
                                                  not_before)
                        select gen_random_uuid(), c.id, a.id, :seq, :state, :why, :quiet, :now, :then
                        from alert a join channel c on c.retired_at is null
                        where a.id = :alert and
                        """ + toWhom + " on conflict (channel_id, event_seq) do nothing")
                .param("seq", event.sequence())
                .param("alert", event.alertId())
                .param("state", quiet == null ? "waiting" : "quiet")
                .param("why", why)
                .param("quiet", quiet)
                .param("now", Rows.at(clock.instant()))
                .param("then", Rows.at(clock.instant().plus(gather(event))))
                .update();
    }

    private Duration gather(AlertNoted event) {
        var facility = jdbc.sql("select facility_id from alert where id = :alert and facility_id is not null")
                .param("alert", event.alertId())
                .query(UUID.class)
                .optional();
        return Duration.ofSeconds(settings.of(facility.orElse(null)).gatherSeconds());
    }

    /**
     * The quiet period that keeps this event from people, the one that ends last; null when there is none. It is locked
     * until the event is written, so that whoever settles it at its end sees the event, too.
     */
    private @Nullable UUID quiet(AlertNoted event) {
        return quiet(jdbc, event.alertId(), event.at());
    }

    /** As {@link #quiet(AlertNoted)}, for an alert at a time. */
    static @Nullable UUID quiet(JdbcClient jdbc, UUID alertId, Instant at) {
        return jdbc.sql("""
                        select q.id from quiet_period q
                        where q.settled_at is null and q.from_at <= :at
                          and (q.room_id = (select room_id from alert where id = :alert)
                               or q.display_id = (select p.display_id from alert a join preset p on p.id = a.subject_id
                                                  where a.id = :alert))
                        order by coalesce(q.ended_at, q.until_at) desc, q.id for share of q
                        """).param("alert", alertId).param("at", Rows.at(at)).query(UUID.class).list().stream()
                .findFirst()
                .orElse(null);
    }
}
