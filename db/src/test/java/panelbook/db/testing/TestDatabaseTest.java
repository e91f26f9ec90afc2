package panelbook.db.testing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.TimeZone;
import org.junit.jupiter.api.Test;

class TestDatabaseTest {

    @Test
    void eachDatabaseIsItsOwn() throws Exception {
        TestDatabase one = TestDatabase.fresh();
        TestDatabase other = TestDatabase.fresh();
        try (Connection connection = one.connect();
                Statement statement = connection.createStatement()) {
            statement.execute("CREATE TABLE only_here (id integer)");
        }
        try (Connection connection = other.connect();
                Statement statement = connection.createStatement()) {
            assertThatThrownBy(() -> statement.execute("SELECT * FROM only_here"))
                    .hasMessageContaining("only_here");
        }
    }

    @Test
    void theRoleOwnsItsDatabaseButIsNoSuperuser() throws Exception {
        TestDatabase db = TestDatabase.empty();
        assertThat(ask(db, "SELECT rolsuper FROM pg_roles WHERE rolname = current_user"))
                .isEqualTo("f");
        assertThat(ask(db, "SELECT pg_get_userbyid(datdba) FROM pg_database WHERE datname = current_database()"))
                .isEqualTo(db.username());
    }

    /** The driver gives each session the JVM's zone, so the server's own shows in the zone of its log. */
    @Test
    void theServersTimeZoneIsNotTheJvms() throws Exception {
        String zone = ask(TestDatabase.empty(), "SELECT current_setting('log_timezone')");
        assertThat(zone)
                .isEqualTo(TestEngine.TIME_ZONE)
                .isNotEqualTo(TimeZone.getDefault().getID());
    }

    @Test
    void textSortsByCodePointAsInTheService() throws Exception {
        assertThat(ask(
                        TestDatabase.empty(),
                        "SELECT string_agg(x, '' ORDER BY x) FROM unnest(ARRAY['a','B','é','Z']) x"))
                .isEqualTo("BZaé");
    }

    static String ask(TestDatabase db, String query) throws SQLException {
        try (Connection connection = db.connect();
                Statement statement = connection.createStatement();
                ResultSet result = statement.executeQuery(query)) {
            result.next();
            return result.getString(1);
        }
    }
}
