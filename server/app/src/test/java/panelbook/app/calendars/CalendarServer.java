package panelbook.app.calendars;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executors;

/** A server of calendars that a test tells how to behave. */
final class CalendarServer implements AutoCloseable {

    /** What it answers. */
    interface Behaviour {
        void answer(HttpExchange exchange) throws IOException;
    }

    /** What was asked for. */
    record Asked(String path, String ifNoneMatch, String ifModifiedSince) {}

    private final HttpServer server;
    private final List<Asked> asked = new CopyOnWriteArrayList<>();
    private volatile Behaviour behaviour = exchange -> exchange.sendResponseHeaders(404, -1);

    CalendarServer() {
        try {
            server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
        server.setExecutor(Executors.newCachedThreadPool(task -> {
            var thread = new Thread(task, "calendar-server");
            thread.setDaemon(true);
            return thread;
        }));
        server.createContext("/", exchange -> {
            asked.add(new Asked(
                    exchange.getRequestURI().toString(),
                    String.valueOf(exchange.getRequestHeaders().getFirst("If-None-Match")),
                    String.valueOf(exchange.getRequestHeaders().getFirst("If-Modified-Since"))));
            try (exchange) {
                behaviour.answer(exchange);
            }
        });
        server.start();
    }

    String address(String path) {
        return "http://127.0.0.1:" + server.getAddress().getPort() + path;
    }

    void behaves(Behaviour next) {
        behaviour = next;
    }

    /** Answers 200 with a calendar, 304 when it is asked for again by its ETag. */
    void serves(byte[] calendar, String etag) {
        behaves(exchange -> {
            exchange.getResponseHeaders().set("ETag", etag);
            exchange.getResponseHeaders().set("Last-Modified", "Mon, 02 Mar 2026 08:00:00 GMT");
            if (etag.equals(exchange.getRequestHeaders().getFirst("If-None-Match"))) {
                exchange.sendResponseHeaders(304, -1);
            } else {
                exchange.sendResponseHeaders(200, calendar.length);
                exchange.getResponseBody().write(calendar);
            }
        });
    }

    List<Asked> asked() {
        return asked;
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
