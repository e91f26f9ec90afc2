package panelbook.app.alerts;

import jakarta.annotation.PreDestroy;
import java.io.IOException;
import java.sql.SQLException;
import java.time.Duration;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import javax.sql.DataSource;
import org.postgresql.PGConnection;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.event.ContextClosedEvent;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;

/**
 * Sends the history of alerts to those who follow it, as server-sent events. The database says when there is more; each
 * follower then reads on from what it has, so that none misses or sees twice what another instance of the service wrote.
 */
@Component
class AlertStream {

    private static final Logger LOG = LoggerFactory.getLogger(AlertStream.class);
    private static final Duration HEARTBEAT = Duration.ofSeconds(15);
    private static final Duration RETRY = Duration.ofSeconds(1);
    private static final int BATCH = 500;

    private final DataSource dataSource;
    private final AlertLog log;
    private final Set<Follower> followers = ConcurrentHashMap.newKeySet();
    private final ExecutorService threads = Executors.newCachedThreadPool(AlertStream::thread);
    private volatile boolean listening;
    private volatile boolean closed;

    AlertStream(DataSource dataSource, AlertLog log) {
        this.dataSource = dataSource;
        this.log = log;
    }

    /** A stream of all events after a sequence number; it ends when the service stops or the follower leaves. */
    SseEmitter follow(long after) {
        listenOnce();
        var follower = new Follower(after);
        followers.add(follower);
        if (closed) {
            follower.leave();
        }
        threads.execute(follower::run);
        return follower.emitter;
    }

    @EventListener
    void stop(ContextClosedEvent event) {
        closed = true;
        followers.forEach(Follower::leave);
    }

    @PreDestroy
    void end() {
        threads.shutdownNow();
    }

    private static Thread thread(Runnable work) {
        var thread = new Thread(work, "alert-stream");
        thread.setDaemon(true);
        return thread;
    }

    private synchronized void listenOnce() {
        if (!listening) {
            listening = true;
            threads.execute(this::listen);
        }
    }

    private void listen() {
        while (!closed) {
            try (var connection = dataSource.getConnection();
                    var statement = connection.createStatement()) {
                connection.setAutoCommit(true);
                statement.execute("listen " + AlertLog.CHANNEL);
                try {
                    wakeOnNotification(connection.unwrap(PGConnection.class));
                } finally {
                    statement.execute("unlisten *");
                }
            } catch (SQLException e) {
                LOG.warn("The database stopped telling of new alerts, trying again: {}", e.getMessage());
                pause();
            }
        }
    }

    private void wakeOnNotification(PGConnection connection) throws SQLException {
        followers.forEach(Follower::wake);
        while (!closed) {
            var notifications = connection.getNotifications((int) HEARTBEAT.toMillis());
            if (notifications != null && notifications.length > 0) {
                followers.forEach(Follower::wake);
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

    /** One open stream and how far it has come. */
    private final class Follower {

        private final SseEmitter emitter = new SseEmitter(0L);
        private long seen;
        private boolean more = true;
        private boolean left;

        Follower(long after) {
            this.seen = after;
            emitter.onCompletion(this::leave);
            emitter.onError(e -> leave());
        }

        void run() {
            try {
                sendPlace();
                while (await()) {
                    send();
                }
                emitter.complete();
            } catch (IOException | IllegalStateException e) {
                LOG.debug("A follower of alerts left: {}", e.getMessage());
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            } catch (RuntimeException e) {
                LOG.warn("A stream of alerts broke off; its follower will resume", e);
                emitter.completeWithError(e);
            } finally {
                followers.remove(this);
            }
        }

        /** Waits for more to send or for the next heartbeat; false when the stream is over. */
        private synchronized boolean await() throws InterruptedException {
            var until = System.nanoTime() + HEARTBEAT.toNanos();
            for (var left = HEARTBEAT.toMillis(); !more && !this.left && left > 0; ) {
                wait(left);
                left = Duration.ofNanos(until - System.nanoTime()).toMillis();
            }
            more = false;
            return !this.left;
        }

        /** Where it stands, without an event: a stream that breaks before its first event is then resumed without a gap. */
        private void sendPlace() throws IOException {
            emitter.send(SseEmitter.event().id(Long.toString(seen)).comment("from here"));
        }

        private void send() throws IOException {
            var events = log.after(seen, BATCH);
            if (events.isEmpty()) {
                emitter.send(SseEmitter.event().comment("still here"));
            }
            for (var event : events) {
                emitter.send(SseEmitter.event()
                        .id(Long.toString(event.sequence()))
                        .name(event.kind().toString())
                        .data(event));
                seen = event.sequence();
            }
            if (events.size() == BATCH) {
                wake();
            }
        }

        synchronized void wake() {
            more = true;
            notifyAll();
        }

        synchronized void leave() {
            left = true;
            notifyAll();
        }
    }
}
