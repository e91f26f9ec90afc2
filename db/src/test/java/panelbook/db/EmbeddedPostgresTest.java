package panelbook.db;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The durable server as the service starts it, as whoever runs the tests (root or not). */
class EmbeddedPostgresTest {
    @TempDir
    static Path parent;

    static EmbeddedPostgresSettings settings;
    static EmbeddedPostgres server;

    @BeforeAll
    static void start() {
        settings = EmbeddedPostgresSettings.durable(parent.resolve("panelbook"));
        server = EmbeddedPostgres.start(settings);
    }

    @AfterAll
    static void stop() {
        server.close();
    }

    /** Names and meanings: PostgreSQL 18 documentation, chapter 19, "Server Configuration". */
    @ParameterizedTest
    @CsvSource({
        "fsync,on",
        "synchronous_commit,on",
        "full_page_writes,on",
        "data_checksums,on",
        "listen_addresses,127.0.0.1",
        "unix_socket_directories,''",
        "password_encryption,scram-sha-256",
        "allow_alter_system,off",
        "logging_collector,on",
        "log_truncate_on_rotation,on",
        "server_encoding,UTF8"
    })
    void theServerIsDurableAndClosed(String setting, String value) throws Exception {
        assertThat(ask(server, server.administrator(), "SHOW " + setting)).isEqualTo(value);
    }

    @Test
    void everyWayInAsksForAPasswordByScram() throws Exception {
        String ways = "SELECT string_agg(DISTINCT type || ' ' || address || ' ' || auth_method, ', ')"
                + " FROM pg_hba_file_rules";
        assertThat(ask(server, server.administrator(), ways)).isEqualTo("host 127.0.0.1 scram-sha-256");
        String plain = "SELECT count(*) FROM pg_authid WHERE rolcanlogin AND rolpassword NOT LIKE 'SCRAM-SHA-256$%'";
        assertThat(ask(server, server.administrator(), plain)).isEqualTo("0");
    }

    @Test
    void textIsOrderedByTheBuiltinLocaleWhateverTheMachineHas() throws Exception {
        assertThat(
                        ask(
                                server,
                                application(server),
                                "SELECT datlocprovider::text || ' ' || datlocale FROM pg_database WHERE datname = current_database()"))
                .isEqualTo("b C.UTF-8");
    }

    @Test
    void theApplicationOwnsItsDatabaseAndNothingMore() throws Exception {
        assertThat(ask(
                        server,
                        application(server),
                        "SELECT rolsuper OR rolcreatedb OR rolcreaterole OR rolreplication FROM pg_roles"
                                + " WHERE rolname = current_user"))
                .isEqualTo("f");
        execute(server, "CREATE EXTENSION btree_gist");
        assertThat(ask(server, application(server), "SELECT count(*) FROM pg_extension WHERE extname = 'btree_gist'"))
                .isEqualTo("1");
    }

    @Test
    void aWrongPasswordIsRefused() {
        for (Login login : List.of(application(server), server.administrator())) {
            assertThatThrownBy(() -> ask(server, new Login(login.username(), "guess"), "SELECT 1"))
                    .as("login as %s with a guessed password", login.username())
                    .isInstanceOf(SQLException.class)
                    .hasMessageContaining("password authentication failed");
        }
    }

    @Test
    void filesAreTheOwnersOnly() throws Exception {
        try (Stream<Path> all = Files.walk(server.folder())) {
            List<String> open = all.filter(path -> !permissions(path).endsWith("------"))
                    .map(path -> permissions(path) + " " + path)
                    .toList();
            assertThat(open).as("files that others may look into").isEmpty();
        }
    }

    @Test
    void aSecondServiceOfThisProcessOrAnotherCannotTakeTheFolder() throws Exception {
        assertThatThrownBy(() -> EmbeddedPostgres.start(settings))
                .isInstanceOf(EmbeddedPostgresException.class)
                .hasMessageContainingAll(
                        server.folder().toString(),
                        "in use by another Panelbook service",
                        "process " + ProcessHandle.current().pid(),
                        "stop that one first");
        Process other = Jvm.start(
                "visit", server.folder().toString(), settings.programsFolder().toString());
        assertThat(Jvm.output(other)).contains(server.folder().toString(), "in use by another Panelbook service");
        assertThat(other.waitFor()).isEqualTo(ServiceStandIn.REFUSED);
        assertThat(ask(server, application(server), "SELECT 1"))
                .as("the first service goes on")
                .isEqualTo("1");
    }

    @Test
    void dataPasswordsAndPortOutliveTheServerAndLostPasswordsAreMadeAnew(@TempDir Path folder) throws Exception {
        EmbeddedPostgresSettings own = EmbeddedPostgresSettings.durable(folder);
        Login login;
        int port;
        try (EmbeddedPostgres first = EmbeddedPostgres.start(own)) {
            login = application(first);
            port = first.port();
            execute(first, "CREATE TABLE kept AS SELECT 42 AS answer");
        }
        assertThat(Jvm.runningOn(folder.toRealPath()))
                .as("what still runs after close")
                .isEmpty();
        try (EmbeddedPostgres second = EmbeddedPostgres.start(own)) {
            assertThat(ask(second, login, "SELECT answer FROM kept")).isEqualTo("42");
            assertThat(second.port()).isEqualTo(port);
        }
        Files.delete(folder.resolve("passwords.properties"));
        try (EmbeddedPostgres third = EmbeddedPostgres.start(own)) {
            assertThat(ask(third, application(third), "SELECT answer FROM kept"))
                    .isEqualTo("42");
            assertThatThrownBy(() -> ask(third, login, "SELECT 1"))
                    .as("the password before the loss")
                    .hasMessageContaining("password authentication failed");
        }
    }

    @Test
    void aSetUpThatWasCutOffIsDoneAgain(@TempDir Path folder) throws Exception {
        Files.createDirectories(folder.resolve("data.unfinished/base"));
        Files.writeString(folder.resolve("data.unfinished/PG_VERSION"), "18\n");
        Files.writeString(folder.resolve("passwords.properties"), "panelbook_admin=one\npanelbook=two\n");
        try (EmbeddedPostgres whole = EmbeddedPostgres.start(EmbeddedPostgresSettings.durable(folder))) {
            assertThat(ask(whole, new Login("panelbook", "two"), "SELECT 1")).isEqualTo("1");
            try (Stream<Path> entries = Files.list(folder)) {
                assertThat(entries).noneMatch(entry -> entry.toString().contains("unfinished"));
            }
        }
    }

    @Test
    void dataOfAnotherMajorVersionAreLeftAlone(@TempDir Path folder) throws Exception {
        Path version = Files.createDirectories(folder.resolve("data")).resolve("PG_VERSION");
        Files.writeString(version, "17\n");
        assertThatThrownBy(() -> EmbeddedPostgres.start(EmbeddedPostgresSettings.durable(folder)))
                .isInstanceOf(EmbeddedPostgresException.class)
                .hasMessageContainingAll(folder.toString(), "PostgreSQL 17", "PostgreSQL 18", "export");
        try (Stream<Path> left = Files.list(folder.resolve("data"))) {
            assertThat(left).containsExactly(version);
        }
    }

    @Test
    void aFixedPortThatIsTakenIsNamedInTheError(@TempDir Path folder) {
        assertThatThrownBy(() -> EmbeddedPostgres.start(
                        EmbeddedPostgresSettings.durable(folder).withPort(server.port())))
                .isInstanceOf(EmbeddedPostgresException.class)
                .hasMessageContainingAll("127.0.0.1", "Address already in use", folder.toString());
    }

    @Test
    void aThrowAwayServerLeavesNothingBehind() throws Exception {
        Path folder;
        try (EmbeddedPostgres throwAway = EmbeddedPostgres.start(EmbeddedPostgresSettings.throwAway())) {
            folder = throwAway.folder();
            assertThat(ask(throwAway, application(throwAway), "SHOW fsync")).isEqualTo("off");
        }
        assertThat(folder).doesNotExist();
        assertThat(Jvm.runningOn(folder)).isEmpty();
    }

    private static Login application(EmbeddedPostgres server) {
        return new Login(server.username(), server.password());
    }

    private static void execute(EmbeddedPostgres server, String sql) throws SQLException {
        try (Connection connection =
                        DriverManager.getConnection(server.jdbcUrl(), server.username(), server.password());
                Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    static String ask(EmbeddedPostgres server, Login login, String query) throws SQLException {
        try (Connection connection = DriverManager.getConnection(server.jdbcUrl(), login.username(), login.password());
                Statement statement = connection.createStatement();
                ResultSet result = statement.executeQuery(query)) {
            result.next();
            return result.getString(1);
        }
    }

    private static String permissions(Path path) {
        try {
            return PosixFilePermissions.toString(Files.getPosixFilePermissions(path, LinkOption.NOFOLLOW_LINKS));
        } catch (IOException goneMeanwhile) {
            return "---------";
        }
    }
}
