package panelbook.app.calendars.ics;

import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * A content line (RFC 5545, 3.1), unfolded.
 *
 * @param number of its first line in the text, from 1
 * @param name in capitals
 * @param parameters by name in capitals
 * @param value as it stands, escapes and all
 */
record ContentLine(int number, String name, Map<String, List<String>> parameters, String value) {

    /** The first value of a parameter. */
    Optional<String> parameter(String parameter) {
        return parameters.getOrDefault(parameter, List.of()).stream().findFirst();
    }

    /** Whether the parameter VALUE says so. */
    boolean isA(String type) {
        return parameter("VALUE").filter(type::equalsIgnoreCase).isPresent();
    }

    /** Values that commas part, none of which holds text. */
    List<String> values() {
        return List.of(value.split(",", -1));
    }

    /** The value as text: escapes taken back, control characters made blanks (RFC 5545, 3.3.11). */
    String text() {
        var text = new StringBuilder();
        for (var i = 0; i < value.length(); i++) {
            var c = value.charAt(i);
            if (c == '\\' && i + 1 < value.length()) {
                i++;
                var escaped = value.charAt(i);
                text.append(escaped == 'n' || escaped == 'N' ? ' ' : escaped);
            } else {
                text.append(Character.isISOControl(c) ? ' ' : c);
            }
        }
        return text.toString().strip();
    }
}
