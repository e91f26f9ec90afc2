package panelbook.db.testing;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;

/**
 * A database for one test class on the test run's only engine.
 *
 * <p>{@code static final TestDatabase db = TestDatabase.fresh();} is all a test class needs; nothing has to be closed,
 * since the engine goes with the test run. The role is the application's: it owns the database and is no superuser.
 * The engine's time zone is neither UTC nor the one that the build gives to the tests' JVM, so that code which loses
 * a zone is found out.
 *
 * @param jdbcUrl where to connect
 * @param username the role that owns the database
 * @param password its password
 */
public record TestDatabase(String jdbcUrl, String username, String password) {

    /** A new database with all migrations of the class path's {@code db/migration} applied. */
    public static TestDatabase fresh() {
        return TestEngine.running().migrated();
    }

    /** A new database with nothing in it. */
    public static TestDatabase empty() {
        return TestEngine.running().empty();
    }

    /** A new connection as the application's role. */
    public Connection connect() throws SQLException {
        return DriverManager.getConnection(jdbcUrl, username, password);
    }
}
