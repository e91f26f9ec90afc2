package panelbook.app.alerts;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.HeldAlert;
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
