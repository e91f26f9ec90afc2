package panelbook.db;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.sql.Statement;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The application's role and database: made at the first start, looked at by every later one. */
final class DatabaseSetup {
    private static final Logger log = LoggerFactory.getLogger(DatabaseSetup.class);
    private static final String WRONG_PASSWORD = "28P01";
    private static final String NO_SUCH_DATABASE = "3D000";

    private DatabaseSetup() {}

    /**
     * Makes sure that the application can log in to its own database; does nothing but log in when it can.
     *
     * @param applicationUrl URL of the application's database
     * @param administrationUrl URL of a database that is always there
     * @param database name of the application's database, a plain identifier
     */
    static void ensure(String applicationUrl, String administrationUrl, Secrets secrets, String database)
            throws SQLException {
        try {
            connect(applicationUrl, secrets.application()).close();
        } catch (SQLException refused) {
            if (!WRONG_PASSWORD.equals(refused.getSQLState()) && !NO_SUCH_DATABASE.equals(refused.getSQLState())) {
                throw refused;
            }
            log.info(
                    "Setting up the role {} and the database {}",
                    secrets.application().username(),
                    database);
            try (Connection administration = connect(administrationUrl, secrets.administrator())) {
                ensureRole(administration, secrets.application());
                ensureDatabase(administration, database, secrets.application().username());
            }
            connect(applicationUrl, secrets.application()).close();
        }
    }

    private static Connection connect(String url, Login login) throws SQLException {
        return DriverManager.getConnection(url, login.username(), login.password());
    }

    private static void ensureRole(Connection connection, Login login) throws SQLException {
        String verb = exists(connection, "SELECT 1 FROM pg_roles WHERE rolname = ?", login.username())
                ? "ALTER ROLE "
                : "CREATE ROLE ";
        // the generated password holds letters, digits, '-' and '_' only; one edited by hand may hold a quote
        execute(
                connection,
                verb + login.username() + " LOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE PASSWORD '"
                        + login.password().replace("'", "''") + "'");
    }

    private static void ensureDatabase(Connection connection, String database, String owner) throws SQLException {
        if (!exists(connection, "SELECT 1 FROM pg_database WHERE datname = ?", database)) {
            execute(connection, "CREATE DATABASE " + database + " OWNER " + owner);
        }
        execute(connection, "REVOKE ALL ON DATABASE " + database + " FROM PUBLIC");
    }

    private static boolean exists(Connection connection, String query, String name) throws SQLException {
        try (PreparedStatement statement = connection.prepareStatement(query)) {
            statement.setString(1, name);
            return statement.executeQuery().next();
        }
    }

    private static void execute(Connection connection, String sql) throws SQLException {
        try (Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }
}
