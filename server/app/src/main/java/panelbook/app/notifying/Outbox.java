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
import tools.jackson.databind.json.JsonMapper;

/**
 * Writes down what an event of an alert owes to whom, in the transaction of the event: either both are in the book or
 * neither. It sends nothing.
 */
@Component
class Outbox {

    /** Stands beside the opening of a step where the channel was told of the movement that the step was at first. */
    static final String TOLD_AS_MOVEMENT = "The channel was told that it moved, which is this step.";

    /** A notification that people know of its alert by. */
    static final String KNOWN = "(n.state <> 'left-out' or n.why = '" + TOLD_AS_MOVEMENT + "')";

    /** Told of this alert since it last opened: what was left out, was not told. */
    private static final String TOLD = """
            exists (select from notification n where n.channel_id = c.id and n.alert_id = :alert
                      and %s
                      and n.event_seq > coalesce((select max(e.seq) from alert_event e
                                                  where e.alert_id = :alert and e.kind = 'closed' and e.seq < :seq), 0))
            """.formatted(KNOWN);

    /**
     * The alert is the step of a preset, and the channel was told of what the first run after the step showed: that the
     * preset moved. A movement that was there before the step is another matter.
     */
    private static final String MOVEMENT_TOLD = """
            (a.cause = 'stepped' and exists (
                select from alert h join notification t on t.alert_id = h.id and t.channel_id = c.id
                join message m on m.id = t.message_id and m.given_up_at is null
                where h.held_by = a.id and h.cause = 'moved' and h.subject_id = a.subject_id and h.closed_at is null
                  and t.event_seq >= (select max(e.seq) from alert_event e
                                      where e.alert_id = h.id and e.kind in ('opened', 'reopened'))
                  and h.opened_at >= (select max(r.received_at)
                                      from jsonb_array_elements(a.detail -> 'findings') f
                                      join run r on r.id = (f -> 'readings' -> 1 ->> 'runId')::uuid)))
            """;

    /** The alert is a movement that a step took the place of: the end of the step is told, too, and once is enough. */
    private static final String STEP_TAKES_ITS_PLACE = """
            exists (select from notification s
                    where s.alert_id = a.held_by and s.channel_id = c.id and s.why = '%s'
                      and s.event_seq > (select max(e.seq) from alert_event e
                                         where e.alert_id = a.id and e.kind in ('opened', 'reopened')))
            """.formatted(TOLD_AS_MOVEMENT);

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
            case CLOSED ->
                owe(
                        event,
                        TOLD + " and not " + STEP_TAKES_ITS_PLACE,
                        "Whoever was told of an alert is told of its end.");
            case UPDATED -> worse(event).ifPresent(why -> owe(event, TOLD, why));
            case HELD_BACK -> leaveOutWhatIsExplained(event);
            case ACKNOWLEDGED -> {}
        }
    }

    private void first(AlertNoted event) {
        if (event.heldBack()) {
            return;
        }
        leaveOutWhatIsExplained(event);
        // events are written when the transaction ends: what closed in it as well was never open to anybody
        var toWhom = "a.closed_at is null and not c.escalations_only and " + CONCERNED;
        switch (event.kind()) {
            case RELEASED -> owe(event, toWhom, "What had explained it is over, and it lasts.");
            case REOPENED -> begin(event, toWhom, "It came back.");
            default -> begin(event, toWhom, "It opened.");
        }
    }

    private void begin(AlertNoted event, String toWhom, String why) {
        add(event, toWhom + " and " + MOVEMENT_TOLD, "left-out", TOLD_AS_MOVEMENT, null);
        owe(event, toWhom + " and not " + MOVEMENT_TOLD, why);
    }

    /** What waits still to be told of an alert that another one explains by now is not told; that an alert ended is. */
    private void leaveOutWhatIsExplained(AlertNoted event) {
        jdbc.sql("""
                        update notification n set state = 'left-out', why = 'Another alert explains it by now.'
                        from alert_event e, alert a
                        where n.state = 'waiting' and e.seq = n.event_seq and e.kind <> 'closed' and a.id = n.alert_id
                          and a.closed_at is null and (a.held_by = :alert or a.held_by is not null and a.id = :alert)
                        """).param("alert", event.alertId()).update();
    }

    private Optional<String> worse(AlertNoted event) {
        if (event.heldBack()) {
            return Optional.empty();
        }
        return jdbc.sql("""
                        select e.detail from alert_event e
                        where e.seq = (select max(n.event_seq) from notification n where n.alert_id = :alert and
                        """ + KNOWN + ")")
                .param("alert", event.alertId())
                .query(String.class)
                .optional()
                .flatMap(told -> Worsening.between(json.readTree(told), json.readTree(event.detail())));
    }

    private void owe(AlertNoted event, String toWhom, String why) {
        var quiet = quiet(event);
        add(event, toWhom, quiet == null ? "waiting" : "quiet", why, quiet);
    }

    private void add(AlertNoted event, String toWhom, String state, String why, @Nullable UUID quiet) {
        jdbc.sql("""
                        insert into notification (id, channel_id, alert_id, event_seq, state, why, quiet_id, created_at,
                                                  not_before)
                        select gen_random_uuid(), c.id, a.id, :seq, :state, :why, :quiet, :now, :then
                        from alert a join channel c on c.retired_at is null
                        where a.id = :alert and
                        """ + toWhom + " on conflict (channel_id, event_seq) do nothing")
                .param("seq", event.sequence())
                .param("alert", event.alertId())
                .param("state", state)
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
