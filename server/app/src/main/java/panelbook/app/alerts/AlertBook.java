package panelbook.app.alerts;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Collection;
import java.util.List;
import java.util.UUID;
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

    static final String SELECT = "select a.*, r.name as room from alert a left join room r on r.id = a.room_id ";

    private final AlertLog log;
    private final JdbcClient jdbc;
    private final JsonMapper json;

    AlertBook(AlertLog log, JdbcClient jdbc, JsonMapper json) {
        this.log = log;
        this.jdbc = jdbc;
        this.json = json;
    }

    /** Alerts that are not closed, in a room or on one of the subjects, newest first, without findings and history. */
    public List<Alert> openIn(UUID roomId, Collection<UUID> subjectIds) {
        return jdbc.sql(SELECT + """
                        where a.closed_at is null and (a.room_id = :room or a.subject_id = any (:subjects))
                        order by a.opened_at desc, a.id desc
                        """)
                .param("room", roomId)
                .param("subjects", subjectIds.toArray(new UUID[0]))
                .query((row, n) -> alert(row, false))
                .list();
    }

    private List<HeldAlert> heldBy(UUID holder) {
        return jdbc.sql("""
                        select id, cause, acknowledged_at, headline, detail ->> 'subject' as subject from alert
                        where held_by = :holder and closed_at is null order by opened_at, id
                        """)
                .param("holder", holder)
                .query((row, n) -> new HeldAlert(
                        Rows.id(row, "id"),
                        Words.of(AlertCause.class, row.getString("cause")),
                        Alerts.state(Rows.instantOrNull(row, "acknowledged_at"), null),
                        row.getString("subject"),
                        row.getString("headline")))
                .list();
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
                heldBy(id),
                row.getLong("version"));
    }
}
