package panelbook.app.board;

import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Objects;
import java.util.stream.Collectors;
import panelbook.wire.ReadinessChange;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.Reason;

/** A history of readiness as CSV by RFC 4180, with a header and times with their offset in the zone of the room. */
final class HistoryCsv {

    private static final String END = "\r\n";
    private static final List<String> HEADER =
            List.of("facility", "room", "from", "to", "state", "reasons", "changed-by-what", "changed-by-whom");

    private HistoryCsv() {}

    static String of(ReadinessHistory history, ZoneId zone) {
        var text = new StringBuilder();
        line(text, HEADER);
        for (var span : history.spans()) {
            line(
                    text,
                    List.of(
                            history.facility(),
                            history.room(),
                            DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
                                    span.from().atZone(zone)),
                            DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(
                                    span.to().atZone(zone)),
                            span.state().toString(),
                            span.reasons().stream().map(HistoryCsv::reason).collect(Collectors.joining("\n")),
                            span.changes().stream()
                                    .map(change -> change.kind() + ": " + change.text())
                                    .collect(Collectors.joining("\n")),
                            span.changes().stream()
                                    .map(ReadinessChange::by)
                                    .filter(Objects::nonNull)
                                    .distinct()
                                    .collect(Collectors.joining("\n"))));
        }
        return text.toString();
    }

    private static String reason(Reason reason) {
        return reason.weight() + ", " + reason.code() + ": " + (reason.display() == null ? "" : reason.display() + ": ")
                + reason.text();
    }

    private static void line(StringBuilder text, List<String> fields) {
        text.append(fields.stream().map(HistoryCsv::field).collect(Collectors.joining(",")))
                .append(END);
    }

    /** Quoted where RFC 4180 asks for it, and only there. */
    private static String field(String value) {
        return value.chars().anyMatch(c -> c == '"' || c == ',' || c == '\r' || c == '\n')
                ? '"' + value.replace("\"", "\"\"") + '"'
                : value;
    }
}
