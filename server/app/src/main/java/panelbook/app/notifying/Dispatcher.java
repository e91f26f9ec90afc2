package panelbook.app.notifying;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.ThreadPoolExecutor;
import java.util.concurrent.TimeUnit;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;
import panelbook.wire.ChannelKind;

/**
 * Sends what is due. Each channel is served by one thread of one instance at a time, in order, so that a receiver that
 * stalls holds up nobody else; while it waits for a receiver it holds no connection to the database.
 */
@Component
class Dispatcher implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(Dispatcher.class);
    private static final int THREADS = 16;

    private final Messages messages;
    private final Packing packing;
    private final Turns turns;
    private final Map<ChannelKind, Sender> senders = new EnumMap<>(ChannelKind.class);
    private final Set<UUID> served = ConcurrentHashMap.newKeySet();
    private final ThreadPoolExecutor threads;
    private volatile boolean stopped;
    private volatile boolean away;

    Dispatcher(Messages messages, Packing packing, Turns turns, List<Sender> senders) {
        this.messages = messages;
        this.packing = packing;
        this.turns = turns;
        senders.forEach(sender -> this.senders.put(sender.kind(), sender));
        this.threads = new ThreadPoolExecutor(
                THREADS, THREADS, 30, TimeUnit.SECONDS, new LinkedBlockingQueue<>(), Dispatcher::thread);
        threads.allowCoreThreadTimeOut(true);
    }

    @Scheduled(
            initialDelayString = "${panelbook.notify.first:PT5S}",
            fixedDelayString = "${panelbook.notify.look-every:PT1S}")
    void look() {
        try {
            serveDue();
            away = false;
        } catch (RuntimeException e) {
            if (!away && !stopped) {
                LOG.warn("What is to be sent cannot be read; trying again each time: {}", e.getMessage());
            }
            away = true;
        }
    }

    /** Starts to serve every channel that has something to send; the result ends when all were served. */
    CompletableFuture<Void> serveDue() {
        var working = new ArrayList<CompletableFuture<Void>>();
        for (var channel : messages.dueChannels()) {
            if (!stopped && served.add(channel)) {
                working.add(CompletableFuture.runAsync(() -> serve(channel), threads));
            }
        }
        return CompletableFuture.allOf(working.toArray(CompletableFuture[]::new));
    }

    /** Sends one message at once, whatever else waits. */
    Answer sendNow(Outgoing message) {
        return sender(message).send(message);
    }

    @Override
    public void destroy() throws InterruptedException {
        stopped = true;
        threads.shutdownNow();
        threads.awaitTermination(2, TimeUnit.SECONDS);
    }

    private static Thread thread(Runnable work) {
        var thread = new Thread(work, "notifying");
        thread.setDaemon(true);
        return thread;
    }

    private void serve(UUID channel) {
        try {
            turns.take(channel).ifPresent(turn -> serve(channel, turn));
        } catch (RuntimeException e) {
            if (!stopped) {
                LOG.warn("Channel {} could not be served, trying again", channel, e);
            }
        } finally {
            served.remove(channel);
        }
    }

    private void serve(UUID channel, UUID turn) {
        try {
            packing.pack(channel);
            for (var message = messages.next(channel);
                    message.isPresent() && !stopped && turns.renew(channel, turn);
                    message = messages.next(channel)) {
                var answer = sendNow(message.get());
                if (stopped && !answer.delivered()) {
                    return; // whoever comes next sends it again, with the same id
                }
                messages.record(message.get(), answer);
            }
        } finally {
            turns.end(channel, turn);
        }
    }

    private Sender sender(Outgoing message) {
        var sender = senders.get(message.kind());
        if (sender == null) {
            throw new IllegalStateException("Nothing sends to " + message.kind());
        }
        return sender;
    }
}
