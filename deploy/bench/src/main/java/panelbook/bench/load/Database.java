package panelbook.bench.load;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.util.Properties;

/** The embedded PostgreSQL of the running service, by the notes in its data folder. */
final class Database {
    private Database() {}

    /** A connection of the same role that the service uses. */
    static Connection connect(Path dataFolder) throws IOException, SQLException {
        var connection = properties(dataFolder.resolve("connection.properties"));
        var passwords = properties(dataFolder.resolve("passwords.properties"));
        var username = connection.getProperty("username");
        return DriverManager.getConnection(connection.getProperty("url"), username, passwords.getProperty(username));
    }

    static void execute(Connection connection, String sql) throws SQLException {
        try (var statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    private static Properties properties(Path file) throws IOException {
        var properties = new Properties();
        try (Reader reader = Files.newBufferedReader(file)) {
            properties.load(reader);
        }
        return properties;
    }
}
