package panelbook.app.rest;

import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Helps to read what was kept as JSON before its record had all the parts that it has now. */
public final class KeptJson {

    private KeptJson() {}

    /** Puts an empty list where an object has none of that name; anything but an object is left as it is. */
    public static void completeList(JsonNode kept, String name) {
        if (kept instanceof ObjectNode object && !object.has(name)) {
            object.putArray(name);
        }
    }
}
