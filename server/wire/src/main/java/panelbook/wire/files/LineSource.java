package panelbook.wire.files;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * The lines of a stream of bytes, in constant memory: UTF-8 checked line by line, a byte order mark skipped, lines ended by
 * LF, CR LF or CR. What is no text, or too much of it, is reported, and ends the lines.
 */
final class LineSource {

    /** Longest line in bytes: a row takes some 100, a description some hundreds. */
    static final int MAX_LINE_BYTES = 8192;

    private final InputStream in;
    private final long maxBytes;
    private final Problems problems;
    private final byte[] buffer = new byte[1 << 16];
    private final byte[] line = new byte[MAX_LINE_BYTES];
    private int position;
    private int filled;
    private long bytes;
    private long lineNumber;
    private boolean ascii;
    private boolean afterCr;
    private boolean stopped;
    private boolean brokenOff;
    private boolean spoiled;

    LineSource(InputStream in, long maxBytes, Problems problems) {
        this.in = in;
        this.maxBytes = maxBytes;
        this.problems = problems;
    }

    /** The next line without its end; null at the end of the file or when reading was {@link #stopped() given up}. */
    @Nullable
    String next() throws IOException {
        int length = 0;
        ascii = true;
        spoiled = false;
        lineNumber++;
        while (!stopped && (position < filled || fill())) {
            byte b = buffer[position++];
            if (b == '\n' && afterCr) {
                afterCr = false;
                continue;
            }
            afterCr = b == '\r';
            if (b == '\n' || b == '\r') {
                return text(length);
            }
            if (accepts(b, length)) {
                line[length++] = b;
            }
        }
        if (stopped || length == 0) {
            lineNumber = stopped ? lineNumber : lineNumber - 1;
            return null;
        }
        brokenOff = true;
        return text(length);
    }

    /** Number of the line that {@link #next()} gave last, from 1; at the end of the file, of its last line. */
    long line() {
        return lineNumber;
    }

    /** Whether the last line of the file has no line end. Known once that line was given. */
    boolean brokenOff() {
        return brokenOff;
    }

    /** Whether the line given last has been reported already and is not worth a look. */
    boolean spoiled() {
        return spoiled;
    }

    /** Whether reading was given up before the end, so that what is missing says nothing about the file. */
    boolean stopped() {
        return stopped;
    }

    /** Gives up: there are no more lines. */
    void stop() {
        stopped = true;
    }

    private boolean accepts(byte b, int length) {
        if (b < 0) {
            ascii = false;
        } else if (b < ' ' && b != '\t' || b == 0x7F) {
            return refuse(RunFileReason.NOT_TEXT, controlCharacter(b));
        }
        if (length == MAX_LINE_BYTES) {
            return refuse(
                    RunFileReason.LINE_TOO_LONG,
                    "the line is longer than " + MAX_LINE_BYTES + " bytes. Reading stopped here: a run file has one"
                            + " reading a line; export it again with line ends");
        }
        return true;
    }

    private boolean refuse(RunFileReason reason, String message) {
        problems.add(reason, lineNumber, message);
        stopped = true;
        return false;
    }

    private static String controlCharacter(byte b) {
        if (b == 0) {
            return "holds a NUL byte, so this is no UTF-8 text. Reading stopped here: give the text file itself (no"
                    + " spreadsheet, archive or picture), saved as UTF-8 and not as UTF-16";
        }
        return "holds the control character 0x" + hex(b) + ". Reading stopped here: export the file again as plain"
                + " text in UTF-8";
    }

    private boolean fill() throws IOException {
        position = 0;
        filled = Math.max(0, in.readNBytes(buffer, 0, buffer.length));
        if (bytes == 0) {
            skipByteOrderMark();
        }
        bytes += filled;
        if (bytes > maxBytes) {
            return refuse(
                    RunFileReason.FILE_TOO_LARGE,
                    "the file is larger than " + (maxBytes >> 20) + " MiB. Reading stopped here: a run has at most "
                            + RunFile.MAX_READINGS + " readings, so this holds something else or several runs; split"
                            + " it");
        }
        return position < filled && !stopped;
    }

    private void skipByteOrderMark() {
        if (filled >= 3 && buffer[0] == (byte) 0xEF && buffer[1] == (byte) 0xBB && buffer[2] == (byte) 0xBF) {
            position = 3;
        } else if (filled >= 2 && (startsWith(0xFE, 0xFF) || startsWith(0xFF, 0xFE))) {
            refuse(
                    RunFileReason.NOT_TEXT,
                    "the file is UTF-16 (it begins with that byte order mark). Save it again as UTF-8");
        }
    }

    private boolean startsWith(int first, int second) {
        return (buffer[0] & 0xFF) == first && (buffer[1] & 0xFF) == second;
    }

    private String text(int length) {
        if (ascii) {
            return new String(line, 0, length, StandardCharsets.ISO_8859_1);
        }
        try {
            return StandardCharsets.UTF_8
                    .newDecoder()
                    .onMalformedInput(CodingErrorAction.REPORT)
                    .decode(ByteBuffer.wrap(line, 0, length))
                    .toString();
        } catch (CharacterCodingException e) {
            return notUtf8(length);
        }
    }

    private String notUtf8(int length) {
        spoiled = true;
        int at = 0;
        while (line[at] >= 0) {
            at++;
        }
        problems.add(
                RunFileReason.NOT_UTF8,
                lineNumber,
                "is not UTF-8 (the first byte beyond ASCII is 0x" + hex(line[at]) + ", at byte " + (at + 1)
                        + " of the line). Save the file again as UTF-8");
        return new String(line, 0, length, StandardCharsets.UTF_8);
    }

    private static String hex(byte b) {
        String digits = Integer.toHexString(b & 0xFF).toUpperCase(Locale.ROOT);
        return digits.length() == 1 ? "0" + digits : digits;
    }
}
