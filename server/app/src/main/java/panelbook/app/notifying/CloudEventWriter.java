package panelbook.app.notifying;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.wire.MessageKind;
import tools.jackson.databind.json.JsonMapper;

/** Writes messages as CloudEvents 1.0 in JSON, structured mode (CloudEvents specification 1.0.2, JSON event format). */
@Component
class CloudEventWriter {

    private final JsonMapper json;
    private final NotifyingRules rules;

    CloudEventWriter(JsonMapper json, NotifyingRules rules) {
        this.json = json;
        this.rules = rules;
    }

    /** The text of a message, the same for every attempt to send it. */
    MessageText text(UUID id, MessageKind kind, List<Told> told, Instant at) {
        var heading = Headings.of(kind, told);
        var event = json.createObjectNode()
                .put("specversion", "1.0")
                .put("id", id.toString())
                .put("source", rules.source())
                .put("type", type(kind, told))
                .put("time", at.toString())
                .put("datacontenttype", "application/json");
        if (kind == MessageKind.ALERT) {
            event.put("subject", told.get(0).event().alertId().toString());
        }
        var data = event.putObject("data").put("kind", kind.toString()).put("heading", heading);
        var events = data.putArray("notifications");
        for (var one : told) {
            events.addObject()
                    .put("id", one.id().toString())
                    .put("why", one.why())
                    .set("event", json.valueToTree(one.event()));
        }
        return new MessageText(heading, json.writeValueAsString(event), null);
    }

    /** Reverse-DNS is only recommended, and Panelbook has no domain: a plain prefix that stays. */
    private static String type(MessageKind kind, List<Told> told) {
        return kind == MessageKind.ALERT
                ? "panelbook.alert." + told.get(0).event().kind()
                : "panelbook." + kind;
    }
}
