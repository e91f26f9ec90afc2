package panelbook.bench.load;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.regex.Pattern;

/** The service, as the holder of one token; one connection that stays open. */
final class Service {
    private static final Pattern ID = Pattern.compile("\"id\"\\s*:\\s*\"([0-9a-f-]{36})\"");

    private final HttpClient client =
            HttpClient.newBuilder().version(HttpClient.Version.HTTP_1_1).build();
    private final String address;
    private final String token;

    Service(String address, String token) {
        this.address = address;
        this.token = token;
    }

    String get(String path) throws IOException, InterruptedException {
        return send(request(path).GET().build(), 200);
    }

    /** A page of the board. */
    String page(String path) throws IOException, InterruptedException {
        var request = HttpRequest.newBuilder(URI.create(address + "/board" + path))
                .header("Authorization", "Bearer " + token);
        return send(request.GET().build(), 200);
    }

    String post(String path, String json, int status) throws IOException, InterruptedException {
        return send(post(path, json), status);
    }

    /** A request made beforehand, so that only the service's time is measured. */
    HttpRequest post(String path, String json) {
        return request(path)
                .header("Content-Type", "application/json")
                .POST(HttpRequest.BodyPublishers.ofString(json))
                .build();
    }

    /**
     * Sends a request and reads the answer whole.
     *
     * @throws IllegalStateException when the answer has another status
     */
    String send(HttpRequest request, int status) throws IOException, InterruptedException {
        var answer = client.send(request, HttpResponse.BodyHandlers.ofString());
        if (answer.statusCode() != status) {
            throw new IllegalStateException(request.method() + " " + request.uri() + " was answered with "
                    + answer.statusCode() + ": " + answer.body());
        }
        return answer.body();
    }

    /** The id of the first thing in an answer. */
    static String id(String answer) {
        var found = ID.matcher(answer);
        if (!found.find()) {
            throw new IllegalStateException("no id in " + answer);
        }
        return found.group(1);
    }

    private HttpRequest.Builder request(String path) {
        return HttpRequest.newBuilder(URI.create(address + "/api/v1" + path))
                .header("Authorization", "Bearer " + token);
    }
}
