package panelbook.db;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * A running PostgreSQL of our own, on loopback and behind generated passwords, its data in a folder of this user's.
 *
 * <p>It stops with {@link #close()}, or else as soon as this process is gone, even by {@code kill -9}: a guard process
 * stops it then. There is no shutdown hook, so that whoever uses the database can close first.
 */
public final class EmbeddedPostgres implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(EmbeddedPostgres.class);
    static final String DATABASE = "panelbook";

    private final FolderLayout layout;
    private final @Nullable FolderLock lock;
    private final FormerServer leftBehind;
    private final ServerGuard guard;
    private final Secrets secrets;
    private final int port;
    private boolean closed;

    EmbeddedPostgres(
            FolderLayout layout,
            @Nullable FolderLock lock,
            FormerServer leftBehind,
            ServerGuard guard,
            Secrets secrets,
            int port) {
        this.layout = layout;
        this.lock = lock;
        this.leftBehind = leftBehind;
        this.guard = guard;
        this.secrets = secrets;
        this.port = port;
    }

    /**
     * Starts the server; the first start on a folder sets it up. What a killed service left running on the folder is
     * stopped first.
     *
     * @return the server, ready for connections
     * @throws EmbeddedPostgresException when the folder is in use by a live service, was written by another major
     *     version, or the server does not start; the message says what to do
     */
    public static EmbeddedPostgres start(EmbeddedPostgresSettings settings) {
        long begin = System.nanoTime();
        try {
            EmbeddedPostgres server = new ServerStart(settings).run();
            log.info(
                    "PostgreSQL runs on port {}, data folder {} ({} ms)",
                    server.port,
                    server.layout.folder(),
                    Duration.ofNanos(System.nanoTime() - begin).toMillis());
            return server;
        } catch (IOException failure) {
            throw new EmbeddedPostgresException(
                    "The embedded PostgreSQL cannot be started"
                            + (settings.isDurable() ? " on the data folder " + settings.folder() : "") + ": " + failure
                            + ". Check that this user owns the folder and that the disk has room.",
                    failure);
        }
    }

    /** The URL of the application's database. */
    public String jdbcUrl() {
        return jdbcUrl(DATABASE);
    }

    /** The URL of a database of that name on this server, whether it exists or not. */
    public String jdbcUrl(String database) {
        return url(port, database);
    }

    /** The role of the application: the owner of its database, not a superuser. */
    public String username() {
        return secrets.application().username();
    }

    /** The password of {@link #username()}. */
    public String password() {
        return secrets.application().password();
    }

    /** The superuser, for work on the server itself such as making databases; the service never uses it. */
    public Login administrator() {
        return secrets.administrator();
    }

    /** The TCP port on 127.0.0.1. */
    public int port() {
        return port;
    }

    /** The folder that holds everything of this server. */
    public Path folder() {
        return layout.folder();
    }

    Secrets secrets() {
        return secrets;
    }

    FolderLayout layout() {
        return layout;
    }

    /** Stops the server, breaking off what clients are doing, and waits until it is gone; a second call does nothing. */
    @Override
    public synchronized void close() {
        if (closed) {
            return;
        }
        closed = true;
        try {
            guard.stop();
            leftBehind.stopIfRunning();
            Files.deleteIfExists(layout.guardNote());
            if (lock == null) {
                OwnerOnly.deleteTree(layout.folder());
            } else {
                lock.close();
            }
        } catch (IOException failure) {
            throw new EmbeddedPostgresException(
                    "The embedded PostgreSQL on " + layout.folder() + " did not stop in order: " + failure, failure);
        }
    }

    static String url(int port, String database) {
        return "jdbc:postgresql://" + ServerConfiguration.LOOPBACK + ":" + port + "/" + database;
    }
}
