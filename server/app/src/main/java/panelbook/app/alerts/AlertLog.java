package panelbook.app.alerts;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEvent;
import panelbook.wire.AlertEventKind;

/**
 * The history of all alerts, in one order. Whoever adds to it holds one lock until the transaction ends, so that sequence
 * numbers become visible in their order and a reader who has seen n has seen all before n.
 */
@Component
class AlertLog {

    /** Channel on which the database tells all instances of the service that there is more to read. */
    static final String CHANNEL = "panelbook_alert_event";

    private static final long LOCK = 0x70616e656cL;

    private static final String SELECT = """
            select e.seq, e.alert_id, e.kind, e.held_back, a.cause, a.detail ->> 'subject' as subject, e.at, e.actor, e.note, e.headline, a.facility_id, a.room_id,
                   r.name as room
            from alert_event e join alert a on a.id = e.alert_id left join room r on r.id = a.room_id
            """;

    /** Whether an alert spoke for itself since it opened last: whoever heard of it then is to hear of its end. */
    private static final String SPOKE = """
            exists (select from alert_event e
                    where e.alert_id = :alert and e.kind in ('opened', 'reopened', 'released') and not e.held_back
                      and e.seq >= (select max(b.seq) from alert_event b
                                    where b.alert_id = :alert and b.kind in ('opened', 'reopened')))""";

    private final JdbcClient jdbc;
    private final ApplicationEventPublisher publisher;

    AlertLog(JdbcClient jdbc, ApplicationEventPublisher publisher) {
        this.jdbc = jdbc;
        this.publisher = publisher;
    }

    /** Takes the lock that adding needs; before any alert's row is locked, so that rivals can't wait for each other. */
    void lock() {
        jdbc.sql("select pg_advisory_xact_lock(:lock)").param("lock", LOCK).query(row -> {});
    }

    void append(
            UUID alertId,
            AlertEventKind kind,
            Instant at,
            String by,
            @Nullable String note,
            String headline,
            String detail) {
        var noted = jdbc.sql("""
                        with added as (
                            insert into alert_event (alert_id, kind, at, actor, note, headline, detail, held_back)
                            select id, :kind, :at, :by, :note, :headline, :detail::jsonb,
                                   held_by is not null and not (:kind = 'closed' and %s)
                            from alert where id = :alert
                            returning seq, held_back)
                        select seq, held_back, pg_notify(:channel, seq::text) from added
                        """.formatted(SPOKE))
                .param("alert", alertId)
                .param("kind", kind.toString())
                .param("at", Rows.at(at))
                .param("by", by)
                .param("note", note)
                .param("headline", headline)
                .param("detail", detail)
                .param("channel", CHANNEL)
                .query((row, n) ->
                        new AlertNoted(row.getLong("seq"), alertId, kind, at, row.getBoolean("held_back"), detail))
                .single();
        publisher.publishEvent(noted);
    }

    /** The events of some sequence numbers, oldest first. */
    List<AlertEvent> at(Collection<Long> sequences) {
        return jdbc.sql(SELECT + " where e.seq = any (:sequences) order by e.seq")
                .param("sequences", sequences.toArray(new Long[0]))
                .query((row, n) -> event(row))
                .list();
    }

    /** Events after a sequence number, oldest first. */
    List<AlertEvent> after(long sequence, int limit) {
        return jdbc.sql(SELECT + " where e.seq > :after order by e.seq limit :limit")
                .param("after", sequence)
                .param("limit", limit)
                .query((row, n) -> event(row))
                .list();
    }

    /** All events of an alert, oldest first. */
    List<AlertEvent> of(UUID alertId) {
        return jdbc.sql(SELECT + " where e.alert_id = :alert order by e.seq")
                .param("alert", alertId)
                .query((row, n) -> event(row))
                .list();
    }

    /** The sequence number of the newest event, 0 when there is none. */
    long newest() {
        return jdbc.sql("select coalesce(max(seq), 0) from alert_event")
                .query(Long.class)
                .single();
    }

    private static AlertEvent event(ResultSet row) throws SQLException {
        return new AlertEvent(
                row.getLong("seq"),
                Rows.id(row, "alert_id"),
                Words.of(AlertEventKind.class, row.getString("kind")),
                Words.of(AlertCause.class, row.getString("cause")),
                row.getString("subject"),
                Rows.instant(row, "at"),
                row.getString("actor"),
                row.getString("note"),
                row.getString("headline"),
                Rows.idOrNull(row, "facility_id"),
                Rows.idOrNull(row, "room_id"),
                row.getString("room"),
                row.getBoolean("held_back"));
    }
}
