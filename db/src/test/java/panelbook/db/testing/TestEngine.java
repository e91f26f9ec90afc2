package panelbook.db.testing;

import ch.qos.logback.classic.Level;
import ch.qos.logback.classic.Logger;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.function.UnaryOperator;
import org.flywaydb.core.Flyway;
import org.jspecify.annotations.Nullable;
import org.slf4j.LoggerFactory;
import org.testcontainers.DockerClientFactory;
import org.testcontainers.postgresql.PostgreSQLContainer;
import panelbook.db.EmbeddedPostgres;
import panelbook.db.EmbeddedPostgresSettings;
import panelbook.db.Login;

/**
 * The PostgreSQL of a test run: in a container where a Docker engine answers, else the embedded one. It ends with the
 * JVM, after every shutdown hook has run, by the container's reaper or the embedded server's guard.
 */
final class TestEngine {
    /** Half an hour off any full hour, and not the zone of the tests' JVM. */
    static final String TIME_ZONE = "America/St_Johns";

    private static final String IMAGE = "postgres:18";
    private static final String MAX_CONNECTIONS = "300";
    private static final String TEMPLATE = "panelbook_template";
    private static final Login APPLICATION = new Login("panelbook", "for-tests-only");

    private static @Nullable TestEngine running;

    private final UnaryOperator<String> urlOfDatabase;
    private final Login administrator;
    private boolean hasTemplate;
    private int databases;

    private TestEngine(UnaryOperator<String> urlOfDatabase, Login administrator) {
        this.urlOfDatabase = urlOfDatabase;
        this.administrator = administrator;
        administer("DO $$ BEGIN CREATE ROLE " + APPLICATION.username()
                + " LOGIN; EXCEPTION WHEN duplicate_object THEN NULL; END $$");
        administer("ALTER ROLE " + APPLICATION.username() + " PASSWORD '" + APPLICATION.password() + "'");
    }

    /** The engine of this JVM; the first call starts it. */
    static synchronized TestEngine running() {
        if (running == null) {
            running = dockerAnswers() ? inContainer() : embedded();
        }
        return running;
    }

    private static boolean dockerAnswers() {
        silence("org.testcontainers");
        silence("com.github.dockerjava");
        return DockerClientFactory.instance().isDockerAvailable();
    }

    /** Without an engine the look for one is logged as errors, which is no news here. */
    private static void silence(String logger) {
        if (LoggerFactory.getLogger(logger) instanceof Logger logback) {
            logback.setLevel(Level.OFF);
        }
    }

    @SuppressWarnings("resource") // the container's reaper ends it with the JVM
    private static TestEngine inContainer() {
        PostgreSQLContainer container = new PostgreSQLContainer(IMAGE)
                .withEnv("POSTGRES_INITDB_ARGS", "--locale=C --locale-provider=builtin --builtin-locale=C.UTF-8")
                .withCommand(
                        "postgres",
                        "-c",
                        "fsync=off",
                        "-c",
                        "timezone=" + TIME_ZONE,
                        "-c",
                        "log_timezone=" + TIME_ZONE,
                        "-c",
                        "max_connections=" + MAX_CONNECTIONS);
        container.start();
        announce("PostgreSQL of the image " + IMAGE + " by Testcontainers");
        String server = "jdbc:postgresql://" + container.getHost() + ":"
                + container.getMappedPort(PostgreSQLContainer.POSTGRESQL_PORT) + "/";
        return new TestEngine(
                database -> server + database, new Login(container.getUsername(), container.getPassword()));
    }

    @SuppressWarnings("resource") // its guard ends it with the JVM
    private static TestEngine embedded() {
        EmbeddedPostgres server = EmbeddedPostgres.start(EmbeddedPostgresSettings.throwAway()
                .withServerOption("timezone", TIME_ZONE)
                .withServerOption("log_timezone", TIME_ZONE)
                .withServerOption("max_connections", MAX_CONNECTIONS));
        announce("embedded PostgreSQL (no Docker engine answers)");
        return new TestEngine(server::jdbcUrl, server.administrator());
    }

    private static void announce(String engine) {
        System.out.println("Test database: " + engine);
    }

    synchronized TestDatabase empty() {
        return create("");
    }

    synchronized TestDatabase migrated() {
        if (!hasTemplate) {
            administer("CREATE DATABASE " + TEMPLATE + " OWNER " + APPLICATION.username());
            migrate(database(TEMPLATE));
            hasTemplate = true;
        }
        return create(" TEMPLATE " + TEMPLATE);
    }

    private TestDatabase create(String template) {
        String name = "test_" + ++databases;
        administer("CREATE DATABASE " + name + template + " OWNER " + APPLICATION.username());
        return database(name);
    }

    private TestDatabase database(String name) {
        return new TestDatabase(urlOfDatabase.apply(name), APPLICATION.username(), APPLICATION.password());
    }

    private static void migrate(TestDatabase database) {
        Flyway.configure()
                .dataSource(database.jdbcUrl(), database.username(), database.password())
                .locations("classpath:db/migration")
                .load()
                .migrate();
    }

    private void administer(String sql) {
        try (Connection connection = DriverManager.getConnection(
                        urlOfDatabase.apply("postgres"), administrator.username(), administrator.password());
                Statement statement = connection.createStatement()) {
            statement.execute(sql);
        } catch (SQLException failure) {
            throw new IllegalStateException("The test database cannot be set up: " + failure.getMessage(), failure);
        }
    }
}
