package panelbook.app.fleet;

import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;

/**
 * Makes changes that look at the same row take turns, until the transaction ends. Rows that merely refer to it, such as
 * those of runs and alerts, are written meanwhile.
 */
enum RowLock {
    /** Whoever moves, edits the stays of, or retires a display. */
    DISPLAY("select id from display where id = ? for no key update"),
    /** Whoever names the hero of a room or retires it. */
    ROOM("select id from room where id = ? for no key update"),
    /** Whoever needs that a room is not retired meanwhile. */
    ROOM_SHARED("select id from room where id = ? for share");

    private final String select;

    RowLock(String select) {
        this.select = select;
    }

    /** Waits for the row; false when there is none. */
    boolean take(JdbcClient jdbc, UUID id) {
        return jdbc.sql(select).param(id).query(UUID.class).optional().isPresent();
    }
}
