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
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.TreeMap;
import java.util.UUID;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * Speaks to the pages as a browser without JavaScript does: keeps cookies, and sends forms with what stands hidden in them. Each has an
 * address of its own, from the range for examples (RFC 3849).
 */
public final class Browser {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static final Pattern HIDDEN_TOKEN = Pattern.compile("name=\"_csrf\"[^>]*value=\"([^\"]*)\"");

    private final URI base;
    private final Map<String, String> cookies = new TreeMap<>();
    private final Map<String, String> headers = new TreeMap<>();
    private String lastPage = "";

    Browser(URI base) {
        this.base = base;
        from(anyAddress());
    }

    /** Comes from an address. */
    public Browser from(String address) {
        return with("X-Forwarded-For", address);
    }

    /** An address that no other browser has, nor any next to it. */
    public static String anyAddress() {
        var random = UUID.randomUUID().toString();
        return "2001:db8:" + random.substring(0, 4) + ":" + random.substring(4, 8) + ":0:0:0:1";
    }

    /** Sends a header with every request from here on. */
    public Browser with(String header, String value) {
        headers.put(header, value);
        return this;
    }

    /** The cookies as they stand, to look at or to plant. */
    public Map<String, String> cookies() {
        return cookies;
    }

    /** Asks for a page and does not follow redirects. */
    public HttpResponse<String> get(String path) {
        return send(path, request -> request.GET());
    }

    /** Sends a form that stands on the page got last; {@code fields} are names and values in turn. */
    public HttpResponse<String> post(String path, String... fields) {
        var form = new LinkedHashMap<String, String>();
        var token = HIDDEN_TOKEN.matcher(lastPage);
        if (token.find()) {
            form.put("_csrf", token.group(1));
        }
        return submit(path, form, fields);
    }

    /** Sends what another site could make this browser send: the fields, without what only our pages hold. */
    public HttpResponse<String> postFromElsewhere(String path, String... fields) {
        return submit(path, new LinkedHashMap<>(), fields);
    }

    /** Opens the sign-in page and signs in with a name and a password. */
    public HttpResponse<String> signIn(String name, String password) {
        get("/sign-in");
        return post("/sign-in", "name", name, "password", password);
    }

    /** Opens the sign-in page and signs in with a token. */
    public HttpResponse<String> signInByToken(String token) {
        get("/sign-in");
        return post("/sign-in", "token", token);
    }

    private HttpResponse<String> submit(String path, Map<String, String> form, String... fields) {
        for (var i = 0; i < fields.length; i += 2) {
            form.put(fields[i], fields[i + 1]);
        }
        var body = form.entrySet().stream()
                .map(field -> encoded(field.getKey()) + "=" + encoded(field.getValue()))
                .collect(Collectors.joining("&"));
        return send(
                path,
                request -> request.header("Content-Type", "application/x-www-form-urlencoded")
                        .POST(HttpRequest.BodyPublishers.ofString(body)));
    }

    private HttpResponse<String> send(String path, java.util.function.UnaryOperator<HttpRequest.Builder> method) {
        var request = HttpRequest.newBuilder(uri(path)).timeout(Duration.ofSeconds(60));
        headers.forEach(request::header);
        if (!cookies.isEmpty()) {
            request.header("Cookie", cookieHeader());
        }
        try {
            var response = CLIENT.send(method.apply(request).build(), HttpResponse.BodyHandlers.ofString());
            response.headers().allValues("Set-Cookie").forEach(this::keep);
            lastPage = response.body();
            return response;
        } catch (IOException failed) {
            throw new UncheckedIOException(path, failed);
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
            throw new IllegalStateException(interrupted);
        }
    }

    /** Where a path lies; an address with a host stays as it is. */
    public URI uri(String path) {
        return base.resolve(path);
    }

    /** The cookies as a request carries them. */
    public String cookieHeader() {
        return cookies.entrySet().stream()
                .map(cookie -> cookie.getKey() + "=" + cookie.getValue())
                .collect(Collectors.joining("; "));
    }

    private void keep(String line) {
        var cookie = line.substring(0, line.indexOf(';')).split("=", 2);
        if (cookie[1].isEmpty() || line.contains("Max-Age=0")) {
            cookies.remove(cookie[0]);
        } else {
            cookies.put(cookie[0], cookie[1]);
        }
    }

    private static String encoded(String text) {
        return URLEncoder.encode(text, StandardCharsets.UTF_8);
    }
}
