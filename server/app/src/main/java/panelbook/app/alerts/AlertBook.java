package panelbook.app.alerts;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.Collection;
import java.util.EnumSet;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Words;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertState;
import panelbook.wire.HeldAlert;
import panelbook.wire.Page;
import tools.jackson.databind.json.JsonMapper;

/** Alerts as the contract shows them. */
@Component
public class AlertBook {

    static final String SELECT = """
            select a.*, r.name as room, held.alerts as holds
            from alert a left join room r on r.id = a.room_id
            left join lateral (select jsonb_agg(jsonb_build_object(
                                          'id', h.id, 'cause', h.cause,
                                          'state', case when h.acknowledged_at is null then 'open' else 'acknowledged' end,
                                          'subject', h.detail ->> 'subject', 'headline', h.headline)
                                      order by h.opened_at, h.id) as alerts
                               from alert h where h.held_by = a.id and h.closed_at is null) held on true
            """;

    private final AlertLog log;
    private final JdbcClient jdbc;
    private final JsonMapper json;

    AlertBook(AlertLog log, JdbcClient jdbc, JsonMapper json) {
        this.log = log;
        this.jdbc = jdbc;
        this.json = json;
    }

    /**
     * Alerts that are not closed, in a room or on one of the subjects, and those that hold one of them back, newest first,
     * without findings and history.
     */
    public List<Alert> openIn(UUID roomId, Collection<UUID> subjectIds) {
        return jdbc.sql(SELECT + """
                        where a.closed_at is null
                          and (a.room_id = :room or a.subject_id = any (:subjects)
                               or a.id in (select b.held_by from alert b where b.closed_at is null and b.room_id = :room))
                        order by a.opened_at desc, a.id desc
                        """)
                .param("room", roomId)
                .param("subjects", subjectIds.toArray(new UUID[0]))
                .query((row, n) -> alert(row, false))
                .list();
    }

    /** A page of alerts, newest first, without findings and history. */
    public Page<Alert> page(AlertFilter filter, Paging paging) {
        var states = filter.states().isEmpty() ? EnumSet.of(AlertState.OPEN, AlertState.ACKNOWLEDGED) : filter.states();
        // said again so that the index of the alerts that are not closed serves
        var unclosedIndex = states.contains(AlertState.CLOSED) ? "" : " and a.closed_at is null";
        var found = jdbc.sql(SELECT + """
                        where case when a.closed_at is not null then 'closed'
                                   when a.acknowledged_at is not null then 'acknowledged' else 'open' end = any (:states)
                          and (:cause::text is null or a.cause = :cause)
                          and (:room::uuid is null or a.room_id = :room)
                          and (:facility::uuid is null or a.facility_id = :facility)
                          and (:held::boolean is null or :held = (a.held_by is not null and a.closed_at is null))
                          and (:at::timestamptz is null or (a.opened_at, a.id) < (:at::timestamptz, :id::uuid))
                        """ + unclosedIndex + " order by a.opened_at desc, a.id desc limit :limit")
                .param("states", states.stream().map(AlertState::toString).toArray(String[]::new))
                .param("cause", filter.cause() == null ? null : filter.cause().toString())
                .param("room", filter.roomId())
                .param("facility", filter.facilityId())
                .param("held", filter.held())
                .param("at", Rows.atOrNull(paging.parsed(0, Instant::parse)))
                .param("id", paging.keyId(1))
                .param("limit", paging.fetch())
                .query((row, n) -> alert(row, false))
                .list();
        return paging.page(
                found, alert -> List.of(alert.openedAt().toString(), alert.id().toString()));
    }

    /**
     * An alert with its findings and its history.
     *
     * @throws Refusal when there is none
     */
    public Alert get(UUID id) {
        return jdbc.sql(SELECT + "where a.id = :id")
                .param("id", id)
                .query((row, n) -> alert(row, true))
                .optional()
                .orElseThrow(() -> Refusal.notFound("alert", id));
    }

    private List<HeldAlert> holds(@Nullable String kept) {
        return kept == null ? List.of() : List.of(json.readValue(kept, HeldAlert[].class));
    }

    /** {@code whole} with findings and history. */
    Alert alert(ResultSet row, boolean whole) throws SQLException {
        var id = Rows.id(row, "id");
        var acknowledgedAt = Rows.instantOrNull(row, "acknowledged_at");
        var closedAt = Rows.instantOrNull(row, "closed_at");
        var detail = Alerts.AlertDetail.read(json, row.getString("detail"));
        return new Alert(
                id,
                Words.of(AlertCause.class, row.getString("cause")),
                Alerts.state(acknowledgedAt, closedAt),
                row.getString("headline"),
                detail.subject(),
                Rows.id(row, "subject_id"),
                Rows.idOrNull(row, "facility_id"),
                Rows.idOrNull(row, "room_id"),
                row.getString("room"),
                Rows.instant(row, "opened_at"),
                Rows.instant(row, "updated_at"),
                acknowledgedAt,
                closedAt,
                detail.followers(),
                whole ? detail.findings() : List.of(),
                whole ? log.of(id) : List.of(),
                Rows.idOrNull(row, "held_by"),
                holds(row.getString("holds")),
                row.getLong("version"));
    }
}
