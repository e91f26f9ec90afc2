package panelbook.app.notifying;

import com.sun.net.httpserver.Headers;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Queue;
import java.util.Random;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.jspecify.annotations.Nullable;

/** Takes webhooks as a program of a facility would, and fails where a test wants it to. */
final class Receiver implements AutoCloseable {

    /** One request as it came. */
    record Request(Headers headers, String body) {

        String header(String name) {
            return headers.getFirst(name);
        }
    }

    /** How the receiver behaves once. */
    interface Mood {
        void answer(HttpExchange exchange) throws IOException;
    }

    private static final Mood WELL = status(200);

    /** Time for a kill between a message's arrival and the service's note of it. */
    private static final Mood LATE = exchange -> {
        LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(300));
        WELL.answer(exchange);
    };

    private final HttpServer server;
    private final ExecutorService threads = Executors.newCachedThreadPool();
    private final Queue<Mood> moods = new ConcurrentLinkedQueue<>();
    private final CountDownLatch closing = new CountDownLatch(1);

    /** All requests, in their order, answered well or not. */
    final List<Request> requests = Collections.synchronizedList(new ArrayList<>());

    /** Those that were answered well. */
    final List<Request> taken = Collections.synchronizedList(new ArrayList<>());

    private @Nullable Random whims;

    Receiver() throws IOException {
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.setExecutor(threads);
        server.createContext("/", this::take);
        server.start();
    }

    String url() {
        return "http://127.0.0.1:" + server.getAddress().getPort() + "/alerts";
    }

    /** The next requests are answered so, one after the other; after these all are taken. */
    Receiver then(Mood... next) {
        moods.addAll(List.of(next));
        return this;
    }

    /** From now on one request in three fails or stalls, and some are answered well but late; none when null. */
    synchronized void moods(@Nullable Random seeded) {
        whims = seeded;
    }

    private synchronized Mood mood() {
        var next = moods.poll();
        if (next != null || whims == null) {
            return next == null ? WELL : next;
        }
        return switch (whims.nextInt(9)) {
            case 0 -> stall();
            case 1 -> status(503);
            case 2 -> status(500);
            case 3, 4 -> LATE;
            default -> WELL;
        };
    }

    static Mood status(int status, String... headers) {
        return exchange -> {
            for (var i = 0; i < headers.length; i += 2) {
                exchange.getResponseHeaders().add(headers[i], headers[i + 1]);
            }
            var body = ("in mood " + status).getBytes(StandardCharsets.UTF_8);
            exchange.sendResponseHeaders(status, body.length);
            exchange.getResponseBody().write(body);
        };
    }

    /** Takes the request and never answers. */
    Mood stall() {
        return exchange -> awaitClosing();
    }

    /** Begins to answer well and never ends. */
    Mood stallInBody() {
        return exchange -> {
            exchange.sendResponseHeaders(200, 100);
            exchange.getResponseBody().write('a');
            exchange.getResponseBody().flush();
            awaitClosing();
        };
    }

    /** Answers well with more text than anybody wants. */
    static Mood flood() {
        return exchange -> {
            exchange.sendResponseHeaders(200, 0);
            var block = new byte[8192];
            try {
                for (var i = 0; i < 100_000; i++) {
                    exchange.getResponseBody().write(block);
                }
            } catch (IOException hungUp) {
                // that is what is hoped for
            }
        };
    }

    private void awaitClosing() {
        try {
            closing.await();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    private void take(HttpExchange exchange) throws IOException {
        try (exchange) {
            var body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
            var request = new Request(exchange.getRequestHeaders(), body);
            requests.add(request);
            var mood = mood();
            if (mood == WELL || mood == LATE) {
                taken.add(request);
            }
            mood.answer(exchange);
        }
    }

    @Override
    public void close() {
        closing.countDown();
        server.stop(0);
        threads.shutdownNow();
    }
}
