package panelbook.app.alerts;

import jakarta.annotation.PreDestroy;
import java.io.IOException;
import java.time.Duration;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.context.event.ContextClosedEvent;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;
import panelbook.app.database.Announcements;

/**
 * Sends the history of alerts to those who follow it, as server-sent events. The database says when there is more; each
 * follower then reads on from what it has, so that none misses or sees twice what another instance of the service wrote.
 */
@Component
class AlertStream implements Announcements.Listener {

    private static final Logger LOG = LoggerFactory.getLogger(AlertStream.class);
    private static final Duration HEARTBEAT = Duration.ofSeconds(15);
    private static final int BATCH = 500;

    private final Announcements announcements;
    private final AlertLog log;
    private final Set<Follower> followers = ConcurrentHashMap.newKeySet();
    private final ExecutorService threads = Executors.newCachedThreadPool(AlertStream::thread);
    private volatile boolean closed;

    AlertStream(Announcements announcements, AlertLog log) {
        this.announcements = announcements;
        this.log = log;
    }

    /** A stream of all events after a sequence number; it ends when the service stops or the follower leaves. */
    SseEmitter follow(long after) {
        announcements.begin();
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

    @Override
    public String channel() {
        return AlertLog.CHANNEL;
    }

    @Override
    public void heard(String words) {
        followers.forEach(Follower::wake);
    }

    @Override
    public void missed() {
        followers.forEach(Follower::wake);
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
