package panelbook.app.planning.crew;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Refusal;
import panelbook.wire.RoomPlanning;
import panelbook.wire.RoomPlanningDraft;

/** How much rooms weigh in a plan. */
@Component
public class RoomPlannings {

    private static final String SELECT = """
            select r.id, f.name || '/' || r.name as room, coalesce(p.importance, 1) as importance,
                   coalesce(p.version, 0) as version
            from room r join facility f on f.id = r.facility_id left join room_planning p on p.room_id = r.id""";

    private final JdbcClient jdbc;

    RoomPlannings(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** How much a room weighs. */
    @Transactional(readOnly = true)
    RoomPlanning get(UUID roomId) {
        return new Query(SELECT)
                .where("r.id = :room", "room", roomId)
                .one(jdbc, RoomPlannings::planning)
                .orElseThrow(() -> Refusal.notFound("room", roomId));
    }

    /** Edits the version that was read. */
    @Transactional
    RoomPlanning set(UUID roomId, RoomPlanningDraft draft, long expectedVersion) {
        new Checks().range("/importance", draft.importance(), 1, 10).refuse();
        get(roomId);
        var statement = jdbc.sql(
                expectedVersion == 0
                        ? "insert into room_planning (room_id, importance, version) values (:room, :importance, 1)"
                                + " on conflict do nothing"
                        : "update room_planning set importance = :importance, version = version + 1"
                                + " where room_id = :room and version = :version");
        statement = statement.param("room", roomId).param("importance", draft.importance());
        if ((expectedVersion == 0 ? statement : statement.param("version", expectedVersion)).update() == 0) {
            throw Etags.stale();
        }
        return get(roomId);
    }

    /** The importance of rooms that somebody said it of; others weigh 1. */
    public Map<UUID, Integer> importances() {
        var found = new HashMap<UUID, Integer>();
        jdbc.sql("select room_id, importance from room_planning").query(row -> {
            found.put(Rows.id(row, "room_id"), row.getInt("importance"));
        });
        return found;
    }

    private static RoomPlanning planning(ResultSet row, int n) throws SQLException {
        return new RoomPlanning(
                Rows.id(row, "id"), row.getString("room"), row.getInt("importance"), row.getLong("version"));
    }
}
