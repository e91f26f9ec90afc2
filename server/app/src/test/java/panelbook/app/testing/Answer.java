package panelbook.app.testing;

import java.net.http.HttpResponse;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Page;
import panelbook.wire.Problem;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What the service answered. */
public record Answer(String request, HttpResponse<String> response, JsonMapper json) {

    /** HTTP status. */
    public int status() {
        return response.statusCode();
    }

    /** The body as it came. */
    public String text() {
        return response.body();
    }

    /** The body as JSON. */
    public JsonNode tree() {
        return json.readTree(text());
    }

    /** The body of a success, e.g. {@code as(Room.class)}; fails with the whole answer when it is none. */
    public <T> T as(Class<T> type) {
        mustBe(status() >= 200 && status() < 300, "a success");
        return json.readValue(text(), type);
    }

    /** The body of a success, a list. */
    public <T> List<T> asListOf(Class<T> type) {
        mustBe(status() == 200, "200");
        return json.readValue(text(), json.getTypeFactory().constructCollectionType(List.class, type));
    }

    /** The body of a success, a page. */
    public <T> Page<T> asPageOf(Class<T> type) {
        mustBe(status() == 200, "200");
        return json.readValue(text(), json.getTypeFactory().constructParametricType(Page.class, type));
    }

    /** The body as the problem that it must be. */
    public Problem problem() {
        mustBe("application/problem+json".equals(header("Content-Type")), "problem details");
        return json.readValue(text(), Problem.class);
    }

    /** The same answer, when it has this status; fails with the whole answer otherwise. */
    public Answer expect(int status) {
        mustBe(status() == status, String.valueOf(status));
        return this;
    }

    /** A header, or null. */
    public @Nullable String header(String name) {
        return response.headers().firstValue(name).orElse(null);
    }

    /** The ETag, which must be there. */
    public String etag() {
        var etag = header("ETag");
        mustBe(etag != null, "an ETag");
        return String.valueOf(etag);
    }

    private void mustBe(boolean holds, String wanted) {
        if (!holds) {
            throw new AssertionError(
                    request + " was to answer " + wanted + ", but answered " + status() + " " + text());
        }
    }
}
