package panelbook.wire.files;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Reads run files in CSV; {@link RunFileReader} says what they look like. */
final class CsvRunReader {

    static final List<String> FIELDS = List.of("red", "green", "blue", "X_cd_m2", "Y_cd_m2", "Z_cd_m2");
    static final String HEADER = "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2";

    /** The line is split whole. */
    private static final int DONE = -1;
    /** The line cannot be split. */
    private static final int FAILED = -2;

    private final LineSource lines;
    private final Problems problems;
    private final MetadataCollector metadata;
    private final ReadingRows rows;
    private final List<String> values = new ArrayList<>();
    private char separator = ',';
    private int columns;
    private boolean brokenRow;

    CsvRunReader(LineSource lines, ReadOptions options, Problems problems) {
        this.lines = lines;
        this.problems = problems;
        this.metadata = new MetadataCollector(RunFileFormat.CSV, problems);
        this.rows = new ReadingRows(FIELDS, options, problems);
    }

    /** Whether a file whose first line that is not blank is this one may be CSV. */
    static boolean mayBegin(String first) {
        if (first.startsWith("#")) {
            return true;
        }
        return !first.startsWith("<") && !IsoRunReader.isKeyword(first) && count(first, separatorOf(first)) > 0;
    }

    RunFileResult read(String first) throws IOException {
        String header = readHead(first);
        if (header == null) {
            reportNoHeader();
        } else {
            readHeader(header);
            readRows();
            checkEnd();
        }
        return problems.none()
                ? new RunFileResult.Read(rows.build(metadata.metadata()), RunFileFormat.CSV, problems.remarks())
                : problems.refused();
    }

    // ---- above the header row

    private @Nullable String readHead(String first) throws IOException {
        String line = first;
        while (line != null) {
            if (line.startsWith("#")) {
                readComment(line);
            } else if (!line.isBlank() && !lines.spoiled()) {
                return line;
            }
            line = lines.next();
        }
        return null;
    }

    private void readComment(String line) {
        String key = keyOf(line);
        if (key == null || lines.spoiled()) {
            return;
        }
        MetadataKey known = MetadataKey.find(key, RunFileFormat.CSV);
        if (known != null) {
            metadata.put(known, valueOf(line), lines.line());
            return;
        }
        List<String> names = MetadataKey.names(RunFileFormat.CSV);
        problems.add(
                RunFileReason.METADATA_UNKNOWN,
                lines.line(),
                key,
                null,
                "is no metadata key." + Names.suggestion(key, names) + " Known are " + String.join(", ", names)
                        + "; begin a line that is only for people with ##");
    }

    /** The key of a {@code # key: value} line, or null when the line is for people. */
    private static @Nullable String keyOf(String line) {
        int colon = line.indexOf(':');
        if (line.startsWith("##") || colon < 0) {
            return null;
        }
        String key = line.substring(1, colon).strip();
        return key.isEmpty() ? null : key;
    }

    /** The value of a {@code # key: value} line, without the separators with which a spreadsheet fills up rows. */
    private static String valueOf(String line) {
        String value = line.substring(line.indexOf(':') + 1).strip();
        int end = value.length();
        while (end > 0 && ",;\t".indexOf(value.charAt(end - 1)) >= 0) {
            end--;
        }
        String bare = value.length() - end < 2 ? value : value.substring(0, end).strip();
        boolean quoted = bare.length() >= 2 && bare.startsWith("\"") && bare.endsWith("\"");
        return quoted ? bare.substring(1, bare.length() - 1).replace("\"\"", "\"") : bare;
    }

    // ---- the header row

    private void readHeader(String header) {
        if (IsoRunReader.identifies(header)) {
            problems.add(
                    RunFileReason.STRUCTURE,
                    lines.line(),
                    "an ISO 28178 file begins with this line. Move the # lines above it below it");
            lines.stop();
            return;
        }
        separator = separatorOf(header);
        if (!split(header)) {
            return;
        }
        columns = values.size();
        if (isReading()) {
            problems.add(
                    RunFileReason.STRUCTURE,
                    lines.line(),
                    "there is no header row above the first reading. Put this line above it: " + HEADER);
            lines.stop();
            return;
        }
        List<String> excused = new ArrayList<>();
        for (int column = 0; column < columns; column++) {
            if (!rows.takeColumn(values.get(column), column, lines.line())) {
                reportColumn(values.get(column), column, excused);
            }
        }
        rows.reportMissing(lines.line(), excused);
    }

    private boolean isReading() {
        for (String value : values) {
            if (!Numbers.isDecimal(value)) {
                return false;
            }
        }
        return true;
    }

    private static char separatorOf(String header) {
        char best = ',';
        int most = 0;
        for (char candidate : new char[] {',', ';', '\t'}) {
            int count = count(header, candidate);
            if (count > most) {
                best = candidate;
                most = count;
            }
        }
        return best;
    }

    private static int count(String text, char wanted) {
        int count = 0;
        for (int i = 0; i < text.length(); i++) {
            count += text.charAt(i) == wanted ? 1 : 0;
        }
        return count;
    }

    private void reportColumn(String name, int column, List<String> excused) {
        String component = name.isEmpty() ? "" : name.substring(0, 1);
        boolean tristimulus = component.equals("X") || component.equals("Y") || component.equals("Z");
        String wanted = component + "_cd_m2";
        if (tristimulus && name.length() == 1) {
            excused.add(wanted);
            unit(
                    RunFileReason.UNIT_MISSING,
                    name,
                    "does not say its unit. Call it " + wanted
                            + " when the values are absolute, in cd/m²; "
                            + "relative ones (white = 100 or 1) lose the luminance and are not read");
        } else if (tristimulus && "_ /([".indexOf(name.charAt(1)) >= 0 && !isNearly(name, wanted)) {
            excused.add(wanted);
            String unit = bareUnit(name.substring(1));
            unit(
                    RunFileReason.UNIT_WRONG,
                    name,
                    "is in '" + Problems.excerpt(unit) + "', not in cd/m²: " + TristimulusUnits.advice(unit)
                            + "; then call the column " + wanted);
        } else {
            problems.add(
                    RunFileReason.COLUMN_UNKNOWN,
                    lines.line(),
                    name.isEmpty() ? "column " + (column + 1) : name,
                    null,
                    unknownColumn(name, column, excused));
        }
    }

    /** The unit behind the letter, without what sets it apart: {@code fL} of {@code _fL} and of {@code " (fL)"}. */
    private static String bareUnit(String behindLetter) {
        int from = 0;
        int to = behindLetter.length();
        while (from < to && "_ /([".indexOf(behindLetter.charAt(from)) >= 0) {
            from++;
        }
        while (to > from && " )]".indexOf(behindLetter.charAt(to - 1)) >= 0) {
            to--;
        }
        return behindLetter.substring(from, to);
    }

    /** A slip of the pen in the name of the unit, such as X_cdm2, rather than another unit. */
    private static boolean isNearly(String name, String wanted) {
        return wanted.equals(Names.nearest(name, List.of(wanted))) && name.contains("cd");
    }

    private String unknownColumn(String name, int column, List<String> excused) {
        if (name.isEmpty()) {
            return "has no name. Name it, or delete the separator at the end of every line";
        }
        if (name.equals("x") || name.equals("y")) {
            return "is a chromaticity coordinate, which is not read. Write tristimulus values in its place: X = x·Y/y,"
                    + " Z = (1 − x − y)·Y/y. Known columns are " + HEADER;
        }
        String nearest = Names.nearest(name, FIELDS);
        if (nearest != null) {
            excused.add(nearest);
        }
        return "is no column of a run file." + Names.suggestion(name, FIELDS) + " Known columns are " + HEADER
                + "; delete others";
    }

    private void unit(RunFileReason reason, String column, String message) {
        problems.add(reason, lines.line(), column, null, message);
    }

    // ---- the rows

    private void readRows() throws IOException {
        for (String line = lines.next(); line != null; line = lines.next()) {
            if (line.startsWith("#")) {
                checkLateComment(line);
            } else if (!line.isBlank()) {
                brokenRow = lines.brokenOff();
                if (!rows.countRow(lines.line())) {
                    lines.stop();
                } else if (!lines.spoiled()) {
                    readRow(line);
                }
            }
        }
    }

    private void checkLateComment(String line) {
        String key = keyOf(line);
        if (key != null && MetadataKey.find(key, RunFileFormat.CSV) != null) {
            problems.add(
                    RunFileReason.METADATA_MISPLACED,
                    lines.line(),
                    key,
                    null,
                    "stands below the header row, where it is not read. Move the line above the header row; when two"
                            + " files were joined, upload them one by one");
        }
    }

    private void readRow(String line) {
        if (!split(line)) {
            return;
        }
        if (values.size() == columns) {
            rows.take(values, lines.line());
        } else if (lines.brokenOff() && values.size() < columns) {
            problems.add(
                    RunFileReason.CUT_SHORT,
                    lines.line(),
                    "the file ends in the middle of this row (" + values.size() + " of " + columns
                            + " values): it was cut short. Copy or export it again");
        } else {
            problems.add(RunFileReason.FIELD_COUNT, lines.line(), fieldCount());
        }
    }

    private String fieldCount() {
        String counts = "this row has " + values.size() + " values and the header row " + columns + " columns. ";
        if (values.size() == columns + 3 && separator == ',') {
            return counts + "When the numbers have decimal commas, export with decimal points";
        }
        if (values.size() > columns) {
            return counts + "Delete what is too much, or export with decimal points and one separator";
        }
        return counts + "Complete the row, or delete it and measure the patch again";
    }

    private void checkEnd() {
        if (lines.stopped()) {
            return;
        }
        int declared = metadata.readings();
        if (rows.rows() == 0) {
            problems.add(
                    RunFileReason.NO_READINGS,
                    lines.line(),
                    "there is no reading below the header row. Export the run again");
        } else if (declared >= 0 && declared != rows.rows()) {
            reportCount(declared);
        } else if (declared >= 0 && brokenRow) {
            problems.add(
                    RunFileReason.CUT_SHORT,
                    lines.line(),
                    "the last row has no line end, so its last number may be cut short. Copy the file again, or add"
                            + " the line end when the row is complete");
        } else if (metadata.line(MetadataKey.READINGS) == 0) {
            problems.remark("the file does not say how many readings it has, so one that was cut short between two"
                    + " lines could not be told from a whole one. Add the line '# readings: " + rows.rows()
                    + "' above the header row");
        }
    }

    private void reportCount(int declared) {
        String next = rows.rows() < declared
                ? "the file was cut short or edited. Copy or export it again, or correct the number"
                : "the file was edited or joined with another. Correct the number, or export the run again";
        problems.add(
                RunFileReason.COUNT_DISAGREES,
                metadata.line(MetadataKey.READINGS),
                MetadataKey.READINGS.csvName(),
                String.valueOf(declared),
                declared + " readings are announced and " + rows.rows() + " are there: " + next);
    }

    // ---- values of a line

    /** Splits a line into {@link #values}; false, with a problem, when its quotation marks do not pair. */
    private boolean split(String line) {
        values.clear();
        int at = 0;
        while (at >= 0) {
            at = skipBlanks(line, at);
            at = at < line.length() && line.charAt(at) == '"' ? quoted(line, at) : plain(line, at);
        }
        return at == DONE;
    }

    private int plain(String line, int from) {
        int end = line.indexOf(separator, from);
        values.add(line.substring(from, end < 0 ? line.length() : end).strip());
        return end < 0 ? DONE : end + 1;
    }

    private int quoted(String line, int open) {
        int close = line.indexOf('"', open + 1);
        while (close >= 0 && close + 1 < line.length() && line.charAt(close + 1) == '"') {
            close = line.indexOf('"', close + 2);
        }
        int after = close < 0 ? -1 : skipBlanks(line, close + 1);
        if (after < 0 || after < line.length() && line.charAt(after) != separator) {
            problems.add(
                    RunFileReason.QUOTE_OPEN,
                    lines.line(),
                    "column " + (values.size() + 1),
                    line.substring(open),
                    "a quotation mark is not closed, or text follows the closing one. Numbers need no quotation marks:"
                            + " delete them");
            return FAILED;
        }
        values.add(line.substring(open + 1, close).replace("\"\"", "\"").strip());
        return after == line.length() ? DONE : after + 1;
    }

    private int skipBlanks(String line, int from) {
        int at = from;
        while (at < line.length() && line.charAt(at) != separator && Character.isWhitespace(line.charAt(at))) {
            at++;
        }
        return at;
    }

    private void reportNoHeader() {
        if (!lines.stopped()) {
            problems.add(
                    RunFileReason.STRUCTURE,
                    lines.line(),
                    "the file ends before its header row, " + HEADER + ". Copy or export it again");
        }
    }
}
