package panelbook.app.testing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.StringJoiner;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.json.JsonMapper;

/** Speaks to the service as the holder of one token. Paths below {@code /api/v1} are given from there, e.g. {@code /rooms}. */
public final class Http {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    private final URI base;
    private final @Nullable String token;
    private final JsonMapper json;

    Http(URI base, @Nullable String token, JsonMapper json) {
        this.base = base;
        this.token = token;
        this.json = json;
    }

    /** The same service with another token; none when null. */
    public Http with(@Nullable String otherToken) {
        return new Http(base, otherToken, json);
    }

    /** The token's secret. */
    public String token() {
        return Objects.requireNonNull(token);
    }

    /** Reads. */
    public Answer get(String path) {
        return send("GET", path, null, List.of());
    }

    /** All items of a list, page by page. */
    public <T> List<T> all(String path, Class<T> type) {
        var items = new ArrayList<T>();
        @Nullable String next = null;
        do {
            var after = next == null ? "" : (path.contains("?") ? "&" : "?") + "after=" + next;
            var page = get(path + after).asPageOf(type);
            items.addAll(page.items());
            next = page.next();
        } while (next != null);
        return items;
    }

    /** Adds; {@code body} is a record of the contract. */
    public Answer post(String path, Object body) {
        return send("POST", path, json.writeValueAsString(body), List.of());
    }

    /** Does something to the version that was read; without a body when null. */
    public Answer post(String path, @Nullable Object body, String etag) {
        return send("POST", path, body == null ? null : json.writeValueAsString(body), List.of("If-Match", etag));
    }

    /** Adds a thing that need not be sent. */
    public Answer post(String path) {
        return send("POST", path, null, List.of());
    }

    /** Adds what is written as JSON already. */
    public Answer postJson(String path, String body) {
        return send("POST", path, body, List.of());
    }

    /** Sends a form as a browser does; {@code fields} are names and values in turn. */
    public Answer form(String path, String... fields) {
        var body = new StringJoiner("&");
        for (var field = 0; field < fields.length; field += 2) {
            body.add(fields[field] + "=" + URLEncoder.encode(fields[field + 1], StandardCharsets.UTF_8));
        }
        return send("POST", path, body.toString(), List.of("Content-Type", "application/x-www-form-urlencoded"));
    }

    /** Edits; without {@code If-Match} when {@code etag} is null. */
    public Answer put(String path, Object body, @Nullable String etag) {
        return send("PUT", path, json.writeValueAsString(body), etag == null ? List.of() : List.of("If-Match", etag));
    }

    /** Any request; {@code headers} are names and values in turn. */
    public Answer send(String method, String path, @Nullable String body, List<String> headers) {
        var request = HttpRequest.newBuilder(uri(path)).timeout(Duration.ofSeconds(60));
        request.method(
                method, body == null ? HttpRequest.BodyPublishers.noBody() : HttpRequest.BodyPublishers.ofString(body));
        if (body != null && !headers.contains("Content-Type")) {
            request.header("Content-Type", "application/json");
        }
        if (token != null) {
            request.header("Authorization", "Bearer " + token);
        }
        if (!headers.isEmpty()) {
            request.headers(headers.toArray(String[]::new));
        }
        try {
            var response = CLIENT.send(request.build(), HttpResponse.BodyHandlers.ofString());
            return new Answer(method + " " + path, response, json);
        } catch (IOException failed) {
            throw new UncheckedIOException(method + " " + path, failed);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(interrupted);
        }
    }

    /** Where a path of the contract lies. */
    public URI uri(String path) {
        var outside = path.startsWith("/actuator")
                || path.startsWith("/v3")
                || path.startsWith("/calendars/")
                || path.startsWith("/board")
                || path.startsWith("/style/")
                || path.startsWith("/api");
        return URI.create(base + (outside ? "" : "/api/v1") + path.replace(" ", "%20"));
    }
}
