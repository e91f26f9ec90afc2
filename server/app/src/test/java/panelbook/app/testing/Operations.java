package panelbook.app.testing;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import tools.jackson.databind.JsonNode;

/** The operations that the served OpenAPI document names. */
public final class Operations {

    private Operations() {}

    /** One operation; {@code path} begins with {@code /api/v1}. */
    public record Operation(String method, String path, JsonNode description) {

        /** The path with random ids: nothing in the book has them. */
        public String anywhere() {
            var filled = path;
            while (filled.contains("{")) {
                filled = filled.replaceFirst("\\{[^}]*}", UUID.randomUUID().toString());
            }
            return filled;
        }

        public boolean documents(int status) {
            return description.path("responses").has(String.valueOf(status));
        }

        @Override
        public String toString() {
            return method + " " + path;
        }
    }

    /** All operations of the document. */
    public static List<Operation> of(JsonNode document) {
        var operations = new ArrayList<Operation>();
        document.path("paths")
                .properties()
                .forEach(path -> path.getValue()
                        .properties()
                        .forEach(method -> operations.add(new Operation(
                                method.getKey().toUpperCase(Locale.ROOT), path.getKey(), method.getValue()))));
        return operations;
    }
}
