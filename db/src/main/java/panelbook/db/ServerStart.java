package panelbook.db;

import java.io.IOException;
import java.io.InterruptedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.util.Optional;
import java.util.Properties;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** The steps of one start. */
final class ServerStart {
    private static final Logger log = LoggerFactory.getLogger(ServerStart.class);
    private static final int START_ATTEMPTS = 20;
    private static final long PAUSE_MILLIS = 500;
    private static final Path PROGRAMS_FOR_OTHERS = Path.of("/var/cache/panelbook/postgresql");

    private final EmbeddedPostgresSettings settings;

    /** A folder that this service holds, and with what its server is run. */
    private record Place(
            FolderLayout layout,
            @Nullable FolderLock lock,
            ServerUser user,
            PostgresPrograms programs,
            FormerServer former) {}

    ServerStart(EmbeddedPostgresSettings settings) {
        this.settings = settings;
    }

    EmbeddedPostgres run() throws IOException {
        @Nullable Path wanted = settings.folder();
        if (wanted == null) {
            Path folder = Files.createTempDirectory("panelbook-throwaway-");
            try {
                return startIn(new FolderLayout(folder.toRealPath()), null);
            } catch (IOException | RuntimeException failure) {
                OwnerOnly.deleteTree(folder);
                throw failure;
            }
        }
        OwnerOnly.makeFolder(wanted);
        FolderLock lock = FolderLock.take(wanted);
        try {
            return startIn(new FolderLayout(wanted.toRealPath()), lock);
        } catch (IOException | RuntimeException failure) {
            lock.close();
            throw failure;
        }
    }

    private EmbeddedPostgres startIn(FolderLayout layout, @Nullable FolderLock lock) throws IOException {
        boolean existing = Files.exists(layout.data());
        ServerUser user = ServerUser.choose(existing ? layout.data() : layout.folder(), ServerUser.ownUid());
        PostgresPrograms programs = programsFor(user);
        if (existing) {
            requireSameVersion(layout, programs);
        }
        FormerServer former = new FormerServer(layout, user, programs);
        former.clear();
        OwnerOnly.makeFolder(layout.logs());
        FolderSetup setup = new FolderSetup(layout, user, programs, settings.isDurable());
        Secrets secrets = setup.secretsAndData();
        user.own(layout.folder());
        return launch(new Place(layout, lock, user, programs, former), secrets);
    }

    /** Starts the server, again where what stood in the way passes: a port just taken, a dying server's memory. */
    private EmbeddedPostgres launch(Place place, Secrets secrets) throws IOException {
        int port = firstPort(place.layout);
        for (int attempt = 1; ; attempt++) {
            Optional<EmbeddedPostgres> server = launchOnce(place, secrets, port);
            if (server.isPresent()) {
                return server.get();
            }
            String failure = StartLog.lastLines(place.layout);
            if (attempt == START_ATTEMPTS || !StartLog.isPassing(failure, settings.port() != 0)) {
                throw new EmbeddedPostgresException("The embedded PostgreSQL does not start on the data folder "
                        + place.layout.folder() + ". Its log (" + place.layout.logs() + ") ends with:\n" + failure);
            }
            log.warn("The embedded PostgreSQL did not start, trying again: {}", failure);
            pause(PAUSE_MILLIS);
            port = settings.port() != 0 ? settings.port() : freePort(0);
        }
    }

    private Optional<EmbeddedPostgres> launchOnce(Place place, Secrets secrets, int port) throws IOException {
        FolderLayout layout = place.layout;
        ServerConfiguration.write(layout.data(), layout.logs(), port, settings.isDurable(), settings.serverOptions());
        place.user.own(layout.data().resolve(ServerConfiguration.FILE));
        ServerGuard guard = ServerGuard.start(layout, place.user, place.programs, settings.isDurable());
        boolean runs = false;
        try {
            if (guard.awaitStart()) {
                EmbeddedPostgres server = new EmbeddedPostgres(layout, place.lock, place.former, guard, secrets, port);
                finish(server);
                place.user.own(layout.folder());
                runs = true;
                return Optional.of(server);
            }
            return Optional.empty();
        } finally {
            if (!runs) {
                guard.stop();
                place.former.stopIfRunning();
            }
        }
    }

    static void pause(long millis) throws IOException {
        try {
            Thread.sleep(millis);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new InterruptedIOException("Interrupted while the embedded PostgreSQL starts");
        }
    }

    private static void finish(EmbeddedPostgres server) throws IOException {
        try {
            DatabaseSetup.ensure(
                    EmbeddedPostgres.url(server.port(), EmbeddedPostgres.DATABASE),
                    EmbeddedPostgres.url(server.port(), "postgres"),
                    server.secrets(),
                    EmbeddedPostgres.DATABASE);
            OwnerOnly.write(
                    server.layout().connectionNote(),
                    "# Where the database is while the service runs.\nurl=" + server.jdbcUrl() + "\nusername="
                            + server.username() + "\n");
        } catch (SQLException failure) {
            throw new EmbeddedPostgresException(
                    "The embedded PostgreSQL on " + server.folder() + " runs, but its database '"
                            + EmbeddedPostgres.DATABASE
                            + "' cannot be set up: " + failure.getMessage()
                            + ". If passwords.properties was replaced, bring the former one back.",
                    failure);
        }
    }

    private PostgresPrograms programsFor(ServerUser user) throws IOException {
        PostgresPrograms programs = PostgresPrograms.unpackedIn(settings.programsFolder(), false);
        if (user.canRun(programs.program("postgres"))) {
            return programs;
        }
        log.info("{} cannot be reached by the server's user: using {}", programs.folder(), PROGRAMS_FOR_OTHERS);
        return PostgresPrograms.unpackedIn(PROGRAMS_FOR_OTHERS, true);
    }

    private static void requireSameVersion(FolderLayout layout, PostgresPrograms programs) throws IOException {
        Path file = layout.data().resolve("PG_VERSION");
        if (!Files.isRegularFile(file)) {
            throw new EmbeddedPostgresException("The folder " + layout.data()
                    + " is there but holds no PostgreSQL data (no PG_VERSION): move it away, or bring its content back"
                    + " from a backup.");
        }
        String found = Files.readString(file, StandardCharsets.UTF_8).trim();
        if (!found.equals(programs.majorVersion())) {
            throw new EmbeddedPostgresException("The data in " + layout.data() + " were written by PostgreSQL "
                    + found + ", and this release carries PostgreSQL " + programs.majorVersion()
                    + ". Nothing was changed. Start the release that wrote them and export its data, then start this"
                    + " one with a new data folder and import them; or run PostgreSQL " + found
                    + " yourself on a copy and give the service its URL, user and password.");
        }
    }

    private int firstPort(FolderLayout layout) throws IOException {
        if (settings.port() != 0) {
            return settings.port();
        }
        int last = lastPort(layout);
        try {
            return freePort(last);
        } catch (IOException taken) {
            return freePort(0);
        }
    }

    private static int lastPort(FolderLayout layout) throws IOException {
        if (!Files.isRegularFile(layout.connectionNote())) {
            return 0;
        }
        Properties note = new Properties();
        try (var in = Files.newBufferedReader(layout.connectionNote(), StandardCharsets.UTF_8)) {
            note.load(in);
        }
        String port = note.getProperty("url", "").replaceAll(".*:(\\d{1,5})/.*", "$1");
        return port.matches("\\d{1,5}") ? Integer.parseInt(port) : 0;
    }

    /** A port that is free just now: the wished one, or any for 0. */
    private static int freePort(int wished) throws IOException {
        try (ServerSocket socket = new ServerSocket(wished, 1, InetAddress.getByName(ServerConfiguration.LOOPBACK))) {
            return socket.getLocalPort();
        }
    }
}
