package panelbook.app.board;

import jakarta.annotation.PreDestroy;
import java.io.IOException;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicLong;
import java.util.function.BooleanSupplier;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.event.ContextClosedEvent;
import org.springframework.context.event.EventListener;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;
import panelbook.app.database.Announcements;
import panelbook.app.rest.Refusal;

/**
 * Tells open pages that something changed: what kind of thing (alert, run, visit) and in which room, and no more; a page then asks for
 * itself anew. An open stream holds neither a thread nor a connection to the database, and ends with the session that it was opened by.
 */
@Component
class BoardStream implements Announcements.Listener {

    private static final Logger LOG = LoggerFactory.getLogger(BoardStream.class);

    /** As the migration has it. */
    private static final String CHANNEL = "panelbook_board";

    private static final String UNKNOWN = "unknown";
    private static final String STILL_HERE = "";
    private static final int SENDERS = 4;

    /** Browsers open six connections to one host over HTTP/1.1 at most, but one person may have several browsers. */
    private static final int MOST_OF_ONE = 12;

    private final Announcements announcements;
    private final int most;
    private final Set<Follower> followers = ConcurrentHashMap.newKeySet();
    private final AtomicLong opened = new AtomicLong();
    private final ExecutorService senders = Executors.newFixedThreadPool(SENDERS, BoardStream::thread);
    private volatile boolean closed;

    BoardStream(Announcements announcements, @Value("${panelbook.board.streams:1000}") int most) {
        this.announcements = announcements;
        this.most = most;
    }

    /**
     * A stream for one page.
     *
     * @param caller who looks at it; of one person's streams the oldest gives way where they are too many
     * @param still whether it may go on
     */
    SseEmitter follow(UUID caller, BooleanSupplier still) {
        if (followers.size() >= most) {
            throw Refusal.of(
                    Refusal.Kind.TOO_MANY,
                    "More pages are open than this service keeps up to date: load the page again to see what is new.");
        }
        announcements.begin();
        var follower = new Follower(caller, still);
        followers.add(follower);
        var own = followers.stream().filter(one -> one.caller.equals(caller)).toList();
        if (own.size() > MOST_OF_ONE) {
            own.stream().min(Comparator.comparingLong(one -> one.number)).ifPresent(Follower::leave);
        }
        if (closed) {
            follower.leave();
        }
        follower.tell(STILL_HERE);
        return follower.emitter;
    }

    @Override
    public String channel() {
        return CHANNEL;
    }

    @Override
    public void heard(String words) {
        followers.forEach(follower -> follower.tell(words));
    }

    @Override
    public void missed() {
        heard(UNKNOWN);
    }

    /** Keeps proxies from giving a quiet stream up, and notices who is gone or no longer let in. */
    @Scheduled(fixedDelayString = "PT15S")
    void beat() {
        heard(STILL_HERE);
    }

    @EventListener
    void stop(ContextClosedEvent event) {
        closed = true;
        followers.forEach(Follower::leave);
    }

    @PreDestroy
    void end() {
        senders.shutdownNow();
    }

    private static Thread thread(Runnable work) {
        var thread = new Thread(work, "board-stream");
        thread.setDaemon(true);
        return thread;
    }

    /** One open stream and what is still to be told on it; the same only once, however often it happened meanwhile. */
    private final class Follower {

        private final SseEmitter emitter = new SseEmitter(0L);
        private final long number = opened.incrementAndGet();
        private final UUID caller;
        private final BooleanSupplier still;
        private final Set<String> untold = new LinkedHashSet<>();
        private boolean sending;

        Follower(UUID caller, BooleanSupplier still) {
            this.caller = caller;
            this.still = still;
            emitter.onCompletion(() -> followers.remove(this));
            emitter.onError(e -> followers.remove(this));
        }

        synchronized void tell(String words) {
            untold.add(words);
            if (!sending && !closed) {
                sending = true;
                senders.execute(this::send);
            }
        }

        private void send() {
            try {
                for (var words = next(); !words.isEmpty(); words = next()) {
                    if (!still.getAsBoolean()) {
                        LOG.debug("Whoever looked at a page is no longer let in");
                        leave();
                        return;
                    }
                    for (var one : words) {
                        emitter.send(event(one));
                    }
                }
            } catch (IOException | IllegalStateException e) {
                LOG.debug("A page was closed: {}", e.getMessage());
                followers.remove(this);
            } catch (RuntimeException e) {
                LOG.warn("A stream of the board broke off; its page will open another", e);
                followers.remove(this);
                emitter.completeWithError(e);
            }
        }

        private synchronized Set<String> next() {
            var next = new LinkedHashSet<>(untold);
            untold.clear();
            sending = !next.isEmpty();
            return next;
        }

        void leave() {
            followers.remove(this);
            emitter.complete();
        }
    }

    /** {@code run ROOM} is an event "run" with the room as its data. */
    private static SseEmitter.SseEventBuilder event(String words) {
        if (words.equals(STILL_HERE)) {
            return SseEmitter.event().comment("still here");
        }
        var parts = words.split(" ", 2);
        return SseEmitter.event().name(parts[0]).data(parts.length > 1 ? parts[1] : "");
    }
}
