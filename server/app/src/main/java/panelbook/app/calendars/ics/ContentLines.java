package panelbook.app.calendars.ics;

import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/** Parts a text into content lines: unfolds them and takes them apart (RFC 5545, 3.1). Lines may end in LF alone. */
final class ContentLines {

    private static final char BYTE_ORDER_MARK = '\uFEFF';

    private final int number;
    private final String line;
    private int at;

    private ContentLines(int number, String line) {
        this.number = number;
        this.line = line;
    }

    /** All lines that are not empty, in order. */
    static List<ContentLine> of(byte[] utf8) throws UnreadableCalendarException {
        var lines = new ArrayList<ContentLine>();
        var unfolded = new StringBuilder();
        var start = 0;
        var number = 0;
        for (var line : decoded(utf8).split("\r\n|\n|\r", -1)) {
            number++;
            if (number > 1 && (line.startsWith(" ") || line.startsWith("\t"))) {
                unfolded.append(line, 1, line.length());
                continue;
            }
            add(lines, start, unfolded);
            unfolded.setLength(0);
            unfolded.append(line);
            start = number;
        }
        add(lines, start, unfolded);
        return lines;
    }

    private static void add(List<ContentLine> lines, int start, CharSequence unfolded)
            throws UnreadableCalendarException {
        if (!unfolded.toString().isBlank()) {
            lines.add(new ContentLines(start, unfolded.toString()).read());
        }
    }

    private static String decoded(byte[] utf8) throws UnreadableCalendarException {
        try {
            var text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(unfoldedOctets(utf8)))
                    .toString();
            return !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK ? text.substring(1) : text;
        } catch (CharacterCodingException notUtf8) {
            throw new UnreadableCalendarException(1, "The calendar is not written in UTF-8.");
        }
    }

    /**
     * A fold may part the octets of one character (RFC 5545, 3.1): there the fold is taken out before the text is decoded. Other
     * folds stay, so that lines keep their numbers.
     */
    private static byte[] unfoldedOctets(byte[] utf8) {
        var kept = new java.io.ByteArrayOutputStream(utf8.length);
        for (var i = 0; i < utf8.length; i++) {
            var fold = foldLength(utf8, i);
            if (fold > 0 && i + fold < utf8.length && (utf8[i + fold] & 0xC0) == 0x80) {
                i += fold - 1;
            } else {
                kept.write(utf8[i]);
            }
        }
        return kept.toByteArray();
    }

    private static int foldLength(byte[] utf8, int at) {
        var end = at;
        if (utf8[end] == '\r') {
            end++;
        }
        if (end < utf8.length && utf8[end] == '\n') {
            end++;
            return end < utf8.length && (utf8[end] == ' ' || utf8[end] == '\t') ? end + 1 - at : 0;
        }
        return 0;
    }

    private ContentLine read() throws UnreadableCalendarException {
        var name = word("a name");
        Map<String, List<String>> parameters = new HashMap<>();
        while (at < line.length() && line.charAt(at) == ';') {
            at++;
            var parameter = word("the name of a parameter");
            expect('=');
            parameters.computeIfAbsent(parameter, p -> new ArrayList<>()).addAll(parameterValues());
        }
        expect(':');
        return new ContentLine(number, name, parameters, line.substring(at));
    }

    private String word(String what) throws UnreadableCalendarException {
        var start = at;
        while (at < line.length() && isNameCharacter(line.charAt(at))) {
            at++;
        }
        if (start == at) {
            throw wrong("Here " + what + " is missing: a line reads NAME;PARAMETER=VALUE:VALUE.");
        }
        return line.substring(start, at).toUpperCase(Locale.ROOT);
    }

    private static boolean isNameCharacter(char c) {
        return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_' || c == '.';
    }

    private List<String> parameterValues() throws UnreadableCalendarException {
        var values = new ArrayList<String>();
        do {
            if (!values.isEmpty()) {
                at++;
            }
            values.add(parameterValue());
        } while (at < line.length() && line.charAt(at) == ',');
        return values;
    }

    private String parameterValue() throws UnreadableCalendarException {
        var quoted = at < line.length() && line.charAt(at) == '"';
        if (quoted) {
            at++;
        }
        var start = at;
        while (at < line.length() && (quoted ? line.charAt(at) != '"' : ";:,".indexOf(line.charAt(at)) < 0)) {
            at++;
        }
        var value = line.substring(start, at);
        if (quoted) {
            expect('"');
        }
        return value;
    }

    private void expect(char c) throws UnreadableCalendarException {
        if (at >= line.length() || line.charAt(at) != c) {
            throw wrong("At character " + (at + 1) + " a \"" + c + "\" is missing.");
        }
        at++;
    }

    private UnreadableCalendarException wrong(String detail) {
        return new UnreadableCalendarException(number, detail);
    }
}
