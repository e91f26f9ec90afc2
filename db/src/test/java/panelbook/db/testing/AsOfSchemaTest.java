package panelbook.db.testing;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;

/** Every table can be asked as of a moment, in the same columns, unless it is said here why nobody asks it that. */
class AsOfSchemaTest {

    private static final String FACILITY = "00000000-0000-4000-8000-000000000001";
    private static final String ROOM = "00000000-0000-4000-8000-000000000002";

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

    @Test
    void ofTwoChangesAtOnceTheOneThatBeganFirstAndCameLastLeavesOneVersionAtEachMoment() throws SQLException {
        var database = TestDatabase.fresh();
        try (var first = database.connect();
                var second = database.connect()) {
            run(
                    first,
                    "set panelbook.now = '2026-01-01T08:00:00Z'",
                    "insert into facility (id, name, time_zone) values ('" + FACILITY + "', 'north', 'UTC')",
                    "insert into room (id, facility_id, name, time_zone) values ('" + ROOM + "', '" + FACILITY
                            + "', 'one', 'UTC')",
                    "set panelbook.now = '2026-01-01T09:00:00Z'");
            run(
                    second,
                    "set panelbook.now = '2026-01-01T09:00:01Z'",
                    "update facility set name = 'south' where id = '" + FACILITY + "'");
            first.setAutoCommit(false);
            run(
                    first,
                    "update facility set name = 'west' where id = '" + FACILITY + "'",
                    "update room set name = 'two'");
            first.commit();
            first.setAutoCommit(true);
            for (var moment : List.of("08:59:59", "09:00:00", "09:00:00.5", "09:00:01", "09:00:02")) {
                run(first, "set panelbook.as_of = '2026-01-01T" + moment + "Z'");
                assertThat(names(first, "select name from as_of.facility where id = '" + FACILITY + "'"))
                        .as("the facility at " + moment)
                        .isEqualTo(List.of(moment.compareTo("09:00:01") < 0 ? "north" : "west"));
                assertThat(names(first, "select name from as_of.room where id = '" + ROOM + "'"))
                        .as("what the same transaction changed then, at " + moment)
                        .isEqualTo(List.of(moment.compareTo("09:00:01") < 0 ? "one" : "two"));
            }
        }
    }

    @Test
    void whatIsEnteredAnewAfterALaterTransactionTookItOutComesAfterWhatItWas() throws SQLException {
        try (var connection = TestDatabase.fresh().connect()) {
            run(
                    connection,
                    "set panelbook.now = '2026-01-01T08:00:00Z'",
                    "insert into facility (id, name, time_zone) values ('" + FACILITY + "', 'north', 'UTC')",
                    "set panelbook.now = '2026-01-01T09:00:01Z'",
                    "delete from facility where id = '" + FACILITY + "'",
                    "set panelbook.now = '2026-01-01T09:00:00Z'",
                    "insert into facility (id, name, time_zone) values ('" + FACILITY + "', 'south', 'UTC')",
                    "set panelbook.as_of = '2026-01-01T09:00:00.5Z'");
            assertThat(names(connection, "select name from as_of.facility where id = '" + FACILITY + "'"))
                    .containsExactly("north");
            run(connection, "set panelbook.as_of = '2026-01-01T09:00:01Z'");
            assertThat(names(connection, "select name from as_of.facility where id = '" + FACILITY + "'"))
                    .containsExactly("south");
        }
    }

    @Test
    void aBookThatWasKeptBeforeGoesOnAndTellsOfTheTimeSince() throws SQLException {
        var database = TestDatabase.empty();
        migrate(database, "13");
        try (var connection = database.connect()) {
            run(
                    connection,
                    "insert into facility (id, name, time_zone) values ('" + FACILITY + "', 'north', 'UTC')",
                    "insert into room (id, facility_id, name, time_zone) values ('" + ROOM + "', '" + FACILITY
                            + "', 'one', 'UTC')");
            migrate(database, "latest");
            run(
                    connection,
                    "set panelbook.now = '2099-01-01T09:00:00Z'",
                    "update facility set name = 'south' where id = '" + FACILITY + "'",
                    "delete from room where id = '" + ROOM + "'");
            assertThat(names(
                            connection,
                            "select (at between now() - interval '1 hour' and now())::text from history.beginning"))
                    .as("it begins with the migration")
                    .containsExactly("true");
            run(connection, "set panelbook.as_of = '2099-01-01T08:59:59Z'");
            assertThat(names(connection, "select f.name || ' ' || r.name from as_of.facility f, as_of.room r"))
                    .containsExactly("north one");
            run(connection, "set panelbook.as_of = '2099-01-01T09:00:00Z'");
            assertThat(names(connection, "select name from as_of.facility")).containsExactly("south");
            assertThat(names(connection, "select name from as_of.room")).isEmpty();
        }
    }

    private static void migrate(TestDatabase database, String version) {
        Flyway.configure()
                .dataSource(database.jdbcUrl(), database.username(), database.password())
                .target(version)
                .load()
                .migrate();
    }

    private static void run(Connection connection, String... statements) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            for (var sql : statements) {
                statement.execute(sql);
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
