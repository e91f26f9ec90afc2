package panelbook.db;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.PreparedStatement;
import java.sql.Statement;

/** A process of its own that uses the embedded PostgreSQL as the service does, to be killed or started as others. */
final class ServiceStandIn {
    static final int REFUSED = 3;

    private ServiceStandIn() {}

    /** Arguments: what to do, the data folder, the folder of the programs. */
    public static void main(String[] arguments) throws Exception {
        Path folder = Path.of(arguments[1]);
        Path programs = Path.of(arguments[2]);
        switch (arguments[0]) {
            case "unpack" ->
                System.out.println(PostgresPrograms.unpackedIn(programs, false).majorVersion());
            case "write" -> write(settings(folder, programs));
            case "visit" -> visit(settings(folder, programs));
            default -> throw new IllegalArgumentException(arguments[0]);
        }
    }

    private static EmbeddedPostgresSettings settings(Path folder, Path programs) {
        return EmbeddedPostgresSettings.durable(folder).withProgramsFolder(programs);
    }

    /** Writes rows 1, 2, 3 … for ever; says each number once its row is committed. */
    private static void write(EmbeddedPostgresSettings settings) throws Exception {
        EmbeddedPostgres server = EmbeddedPostgres.start(settings);
        try (Connection connection = connect(server);
                Statement statement = connection.createStatement()) {
            statement.execute("CREATE TABLE written (id integer PRIMARY KEY)");
            try (PreparedStatement insert = connection.prepareStatement("INSERT INTO written VALUES (?)")) {
                for (int id = 1; ; id++) {
                    insert.setInt(1, id);
                    insert.executeUpdate();
                    System.out.println(id);
                }
            }
        }
    }

    /** Starts, says who runs the server's files, and closes. */
    private static void visit(EmbeddedPostgresSettings settings) throws Exception {
        try (EmbeddedPostgres server = EmbeddedPostgres.start(settings);
                Connection connection = connect(server)) {
            System.out.println("process user " + ServerUser.ownUid() + ", data of user "
                    + ServerUser.ownerOf(server.folder().resolve("data")) + ", valid "
                    + connection.isValid(5));
        } catch (EmbeddedPostgresException refused) {
            System.out.println(refused.getMessage());
            System.exit(REFUSED);
        }
    }

    private static Connection connect(EmbeddedPostgres server) throws Exception {
        return DriverManager.getConnection(server.jdbcUrl(), server.username(), server.password());
    }
}
