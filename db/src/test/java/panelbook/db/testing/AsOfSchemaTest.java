package panelbook.db.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Every table can be asked as of a moment, in the same columns, unless it is said here why nobody asks it that. */
class AsOfSchemaTest {

    /** What is of the present alone: it says nothing of rooms as they stood. */
    private static final Set<String> OF_THE_PRESENT = Set.of(
            // who may come in, and what they changed, which carries its own times
            "token",
            "account",
            "sign_in",
            "sign_in_wait",
            "spring_session",
            "spring_session_attributes",
            "audit_entry",
            // what people were told
            "channel",
            "channel_secret",
            "channel_turn",
            "message",
            "message_attempt",
            "notification",
            "notification_settings",
            "quiet_period",
            // what was handed out, each row with the moment that it tells of
            "proof",
            "proof_file",
            // plans look ahead
            "plan",
            "visit",
            "booking",
            "booking_reading",
            "booking_source",
            "calendar_feed",
            "calibrator",
            "calibrator_absence",
            "holiday",
            "room_planning",
            "travel_time",
            "work_duration",
            // general advice, and answers to repeats of a request
            "advice",
            "mending_answer",
            "flyway_schema_history");

    @Test
    void whateverIsInTheBookCanBeAskedAsOfAMoment() throws SQLException {
        try (var connection = TestDatabase.fresh().connect()) {
            for (var table : names(
                    connection,
                    "select relname from pg_class where relnamespace = 'public'::regnamespace"
                            + " and relkind in ('r', 'v') order by 1")) {
                if (!OF_THE_PRESENT.contains(table)) {
                    assertThat(columns(connection, "as_of." + table))
                            .as(
                                    "what a statement reads of %s now and as of a moment; a column that a migration adds goes into"
                                            + " the history and the view as well",
                                    table)
                            .isNotEmpty()
                            .isEqualTo(columns(connection, "public." + table));
                }
            }
        }
    }

    @Test
    void everyVersionHoldsAllThatTheRowHeld() throws SQLException {
        try (var connection = TestDatabase.fresh().connect()) {
            var kept = names(
                    connection,
                    "select relname from pg_class where relnamespace = 'history'::regnamespace"
                            + " and relkind = 'r' and relname <> 'beginning' order by 1");
            assertThat(kept).isNotEmpty();
            for (var table : kept) {
                var columns = new ArrayList<>(columns(connection, "history." + table));
                assertThat(columns.remove(0)).startsWith("entered_at");
                assertThat(columns.remove(0)).startsWith("left_at");
                assertThat(columns).as(table).isEqualTo(columns(connection, "public." + table));
            }
        }
    }

    private static List<String> columns(Connection connection, String relation) throws SQLException {
        return names(
                connection,
                "select attname || ' ' || format_type(atttypid, atttypmod) from pg_attribute"
                        + " where attrelid = to_regclass('" + relation
                        + "') and attnum > 0 and not attisdropped order by attnum");
    }

    private static List<String> names(Connection connection, String query) throws SQLException {
        var names = new ArrayList<String>();
        try (Statement statement = connection.createStatement();
                ResultSet rows = statement.executeQuery(query)) {
            while (rows.next()) {
                names.add(rows.getString(1));
            }
        }
        return names;
    }
}
