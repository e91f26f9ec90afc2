package panelbook.cli.service;

import java.io.FilterOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.net.HttpURLConnection;
import java.net.URI;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.LongConsumer;
import org.jspecify.annotations.Nullable;
import panelbook.cli.json.Json;
import panelbook.cli.json.Records;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Page;
import panelbook.wire.Problem;

/**
 * Requests to the service under {@code /api/v1}. A refusal becomes {@link Refused}, anything that leaves open what
 * happened becomes {@link ServiceAway}. Built on the platform's oldest HTTP client because it starts fastest.
 */
public final class Service {

    private static final int CONNECT_MILLIS = 5_000;
    private static final int READ_MILLIS = 120_000;
    private static final int BUFFERED_BYTES = 1 << 16;
    private static final int MOST_PER_PAGE = 500;

    static {
        // a POST is repeated by us, on purpose, or not at all
        System.setProperty("sun.net.http.retryPost", "false");
    }

    private final LogIn logIn;

    /** The service of a log-in. */
    public Service(LogIn logIn) {
        this.logIn = logIn;
    }

    /** Address of the service. */
    public String address() {
        return logIn.service();
    }

    /**
     * What came back.
     *
     * @param created whether it is new (201); false when the service had it already
     */
    public record Added<T>(T value, boolean created) {}

    /** One thing. */
    public <T> T get(Class<T> type, String path) {
        return read(type, send("GET", path, null, null, n -> {}).body());
    }

    /** A text of a kind of its own, such as image/svg+xml. */
    public String getText(String path, String kind) {
        return new String(getBytes(path, kind), StandardCharsets.UTF_8);
    }

    /** A file of a kind of its own, such as application/pdf. */
    public byte[] getBytes(String path, String kind) {
        try {
            var connection = connection("GET", path);
            connection.setRequestProperty("Accept", kind + ", application/problem+json");
            var status = connection.getResponseCode();
            if (status != HttpURLConnection.HTTP_OK) {
                checked(answer(connection, status), path);
                throw strange("no " + kind);
            }
            try (var in = connection.getInputStream()) {
                return in.readAllBytes();
            }
        } catch (IOException e) {
            throw away(e);
        }
    }

    /** A list that is not paged. */
    public <T> List<T> list(Class<T> type, String path) {
        return readAll(type, send("GET", path, null, null, n -> {}).body());
    }

    /** One page. */
    public <T> Page<T> page(Class<T> type, String path) {
        var body = send("GET", path, null, null, n -> {}).body();
        if (!(body instanceof Map<?, ?> page)) {
            throw strange("no page where one belongs");
        }
        var next = page.get("next");
        return new Page<>(readAll(type, page.get("items")), next == null ? null : next.toString());
    }

    /** Items from as many pages as {@code most} needs. */
    public <T> Page<T> pages(Class<T> type, String path, int most) {
        var items = new ArrayList<T>();
        @Nullable String after = null;
        do {
            var size = Math.min(MOST_PER_PAGE, most - items.size());
            var page = page(type, with(with(path, "limit", Integer.toString(size)), "after", after));
            items.addAll(page.items());
            after = page.next();
        } while (after != null && items.size() < most);
        return new Page<>(items, after);
    }

    /** Adds or does something. */
    public <T> Added<T> post(Class<T> type, String path, Object body) {
        return post(type, path, body, n -> {});
    }

    /** As {@link #post(Class, String, Object)}; {@code sent} hears how many bytes have gone out so far. */
    public <T> Added<T> post(Class<T> type, String path, Object body, LongConsumer sent) {
        var answer = send("POST", path, body, null, sent);
        return new Added<>(read(type, answer.body()), answer.status() == HttpURLConnection.HTTP_CREATED);
    }

    /** Does something to what has not been edited since version {@code version}. */
    public <T> T post(Class<T> type, String path, Object body, long version) {
        return read(
                type, send("POST", path, body, "\"" + version + "\"", n -> {}).body());
    }

    /** Replaces something that has not been edited since version {@code version}. */
    public <T> T put(Class<T> type, String path, Object body, long version) {
        return read(
                type, send("PUT", path, body, "\"" + version + "\"", n -> {}).body());
    }

    /** Replaces something by a text of a kind of its own, such as text/calendar. */
    public <T> T putText(Class<T> type, String path, String kind, byte[] text) {
        try {
            var connection = connection("PUT", path);
            connection.setDoOutput(true);
            connection.setRequestProperty("Content-Type", kind);
            connection.setFixedLengthStreamingMode(text.length);
            try (var out = connection.getOutputStream()) {
                out.write(text);
            }
            return read(
                    type,
                    checked(answer(connection, connection.getResponseCode()), path)
                            .body());
        } catch (IOException e) {
            throw away(e);
        }
    }

    /** Opens the stream of alert events after event {@code after}; null for those from now on. The caller closes it. */
    public HttpURLConnection openStream(String path, @Nullable Long after, int readMillis) throws IOException {
        var connection = connection("GET", path);
        connection.setReadTimeout(readMillis);
        connection.setRequestProperty("Accept", "text/event-stream");
        if (after != null) {
            connection.setRequestProperty("Last-Event-ID", after.toString());
        }
        var status = connection.getResponseCode();
        if (status != HttpURLConnection.HTTP_OK) {
            checked(answer(connection, status), path);
        }
        return connection;
    }

    private record Answer(int status, @Nullable Object body) {}

    private Answer send(
            String method, String path, @Nullable Object body, @Nullable String ifMatch, LongConsumer sent) {
        try {
            var connection = connection(method, path);
            if (ifMatch != null) {
                connection.setRequestProperty("If-Match", ifMatch);
            }
            if (body != null) {
                write(connection, body, sent);
            }
            return checked(answer(connection, connection.getResponseCode()), path);
        } catch (IOException e) {
            throw away(e);
        }
    }

    private HttpURLConnection connection(String method, String path) throws IOException {
        var connection = (HttpURLConnection)
                URI.create(address() + "/api/v1" + path).toURL().openConnection();
        connection.setRequestMethod(method);
        connection.setConnectTimeout(CONNECT_MILLIS);
        connection.setReadTimeout(READ_MILLIS);
        connection.setInstanceFollowRedirects(false);
        connection.setUseCaches(false);
        connection.setRequestProperty("Authorization", "Bearer " + logIn.token());
        connection.setRequestProperty("Accept", "application/json, application/problem+json");
        return connection;
    }

    private static void write(HttpURLConnection connection, Object body, LongConsumer sent) throws IOException {
        connection.setDoOutput(true);
        connection.setRequestProperty("Content-Type", "application/json");
        // small bodies go out with their length, large ones without a copy in memory
        var start = new Beginning(connection, sent);
        Json.write(body, start);
        start.finish();
    }

    private static Answer answer(HttpURLConnection connection, int status) throws IOException {
        var in = status >= 400 ? connection.getErrorStream() : connection.getInputStream();
        if (in == null) {
            return new Answer(status, null);
        }
        try (in) {
            var type = connection.getContentType();
            if (type == null || !type.contains("json")) {
                in.readAllBytes(); // so that the connection can be used again
                return new Answer(status, null);
            }
            return new Answer(status, Json.parse(in));
        }
    }

    private Answer checked(Answer answer, String path) {
        if (answer.status() >= 200 && answer.status() < 300) {
            return answer;
        }
        if (answer.status() >= 500 || answer.status() == 408 || answer.status() == 429) {
            var problem = Records.read(Problem.class, answer.body()).value();
            throw new ServiceAway(
                    "The service at " + address() + " has trouble (" + answer.status()
                            + (problem == null ? "" : ": " + problem.detail()) + "). Try again in a while.",
                    null);
        }
        var problem = Records.read(Problem.class, answer.body()).value();
        throw problem != null ? new Refused(problem) : new Refused(unexplained(answer.status(), path));
    }

    private Problem unexplained(int status, String path) {
        var detail = "The service answered " + status + " to " + path + " without saying why."
                + (status == 401 ? "" : " Is " + address() + " a Panelbook service of this version?");
        return new Problem("about:blank", "Unexplained", status, detail, null, null);
    }

    private ServiceAway away(IOException e) {
        var reason = e instanceof java.net.UnknownHostException
                ? "unknown host " + e.getMessage()
                : e.getMessage() == null ? e.getClass().getSimpleName() : e.getMessage();
        return new ServiceAway(
                "The service at " + address() + " cannot be reached (" + reason
                        + "). Try again when it runs; panelbook who tells whether it does.",
                e);
    }

    private <T> List<T> readAll(Class<T> type, @Nullable Object body) {
        if (!(body instanceof List<?> items)) {
            throw strange("no list where one belongs");
        }
        return items.stream().map(item -> read(type, item)).toList();
    }

    private <T> T read(Class<T> type, @Nullable Object body) {
        var reading = Records.read(type, body);
        var value = reading.value();
        if (value != null) {
            return value;
        }
        var misfits = reading.misfits();
        throw strange(
                misfits.isEmpty()
                        ? "nothing"
                        : misfits.get(0).pointer() + " " + misfits.get(0).message());
    }

    private Failure strange(String what) {
        return Failure.failed("The service at " + address() + " answered something else than expected (" + what
                + "). Are client and service of the same version?");
    }

    /** A path with one more query parameter; unchanged when {@code value} is null. */
    public static String with(String path, String name, @Nullable String value) {
        return value == null ? path : path + (path.indexOf('?') < 0 ? '?' : '&') + name + '=' + encoded(value);
    }

    private static String encoded(String value) {
        return URLEncoder.encode(value, StandardCharsets.UTF_8).replace("+", "%20");
    }

    /** Holds the first bytes back; what fits is sent with its length, what does not is sent in chunks. */
    private static final class Beginning extends OutputStream {

        private final HttpURLConnection connection;
        private final LongConsumer sent;
        private final byte[] held = new byte[BUFFERED_BYTES];
        private int length;
        private @Nullable OutputStream out;

        Beginning(HttpURLConnection connection, LongConsumer sent) {
            this.connection = connection;
            this.sent = sent;
        }

        @Override
        public void write(int b) throws IOException {
            write(new byte[] {(byte) b}, 0, 1);
        }

        @Override
        public void write(byte[] bytes, int offset, int count) throws IOException {
            if (out == null && length + count <= held.length) {
                System.arraycopy(bytes, offset, held, length, count);
                length += count;
                return;
            }
            chunked().write(bytes, offset, count);
        }

        private OutputStream chunked() throws IOException {
            if (out == null) {
                connection.setChunkedStreamingMode(BUFFERED_BYTES);
                out = new Counting(connection.getOutputStream(), sent);
                out.write(held, 0, length);
            }
            return out;
        }

        void finish() throws IOException {
            if (out == null) {
                connection.setFixedLengthStreamingMode(length);
                out = new Counting(connection.getOutputStream(), sent);
                out.write(held, 0, length);
            }
            out.close();
        }
    }

    private static final class Counting extends FilterOutputStream {

        private final LongConsumer sent;
        private long count;

        Counting(OutputStream out, LongConsumer sent) {
            super(out);
            this.sent = sent;
        }

        @Override
        public void write(byte[] bytes, int offset, int length) throws IOException {
            out.write(bytes, offset, length);
            count += length;
            sent.accept(count);
        }
    }
}
