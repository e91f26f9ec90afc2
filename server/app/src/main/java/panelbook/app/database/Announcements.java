package panelbook.app.database;

import jakarta.annotation.PreDestroy;
import java.sql.SQLException;
import java.time.Duration;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.postgresql.PGNotification;
import org.postgresql.jdbc.PgConnection;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.event.ContextClosedEvent;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/**
 * Hears what the database tells all instances of the service (NOTIFY), over one connection for whoever listens, taken when the first
 * one asks.
 */
@Component
public class Announcements {

    private static final Logger LOG = LoggerFactory.getLogger(Announcements.class);
    private static final Duration PATIENCE = Duration.ofSeconds(15);
    private static final String NAME = "panelbook announcements";
    private static final int ANSWER_SECONDS = 10;
    private static final Duration RETRY = Duration.ofSeconds(1);

    private final DataSource dataSource;
    private final ObjectProvider<Listener> listeners;
    private @Nullable Thread thread;
    private volatile boolean closed;

    Announcements(DataSource dataSource, ObjectProvider<Listener> listeners) {
        this.dataSource = dataSource;
        this.listeners = listeners;
    }

    /** A bean that hears one channel; both methods return soon. */
    public interface Listener {

        /** The channel's name, a constant. */
        String channel();

        /** The database told of something, in the order in which transactions committed. */
        void heard(String words);

        /** Something may have been told that nobody heard: at the start, and after the connection broke. */
        void missed();
    }

    /** Listens from here on; more than once is as once. */
    public synchronized void begin() {
        if (thread == null) {
            thread = new Thread(this::listen, "announcements");
            thread.setDaemon(true);
            thread.start();
        }
    }

    @EventListener
    void stop(ContextClosedEvent event) {
        closed = true;
    }

    @PreDestroy
    synchronized void end() {
        closed = true;
        if (thread != null) {
            thread.interrupt();
        }
    }

    private void listen() {
        var all = listeners.stream().collect(Collectors.toMap(Listener::channel, Function.identity()));
        while (!closed) {
            try (var connection = dataSource.getConnection();
                    var statement = connection.createStatement()) {
                connection.setAutoCommit(true);
                // the name by which whoever looks at the server's connections knows it
                statement.execute("set application_name = '" + NAME + "'");
                for (var channel : all.keySet()) {
                    statement.execute("listen " + channel);
                }
                try {
                    tell(all, connection.unwrap(PgConnection.class));
                } finally {
                    statement.execute("unlisten *");
                    statement.execute("reset application_name");
                }
            } catch (SQLException e) {
                if (!closed) {
                    LOG.warn("The database stopped telling what is new, trying again: {}", e.getMessage());
                    pause();
                }
            }
        }
    }

    private void tell(Map<String, Listener> all, PgConnection connection) throws SQLException {
        all.values().forEach(Listener::missed);
        while (!closed) {
            var heard = connection.getNotifications((int) PATIENCE.toMillis());
            if ((heard == null || heard.length == 0) && !connection.isValid(ANSWER_SECONDS)) {
                // a server or a network that went away without a word looks like a quiet one
                throw new SQLException("The connection is dead");
            }
            for (var words : heard == null ? new PGNotification[0] : heard) {
                var listener = all.get(words.getName());
                if (listener != null) {
                    listener.heard(words.getParameter());
                }
            }
        }
    }

    private static void pause() {
        try {
            Thread.sleep(RETRY.toMillis());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
