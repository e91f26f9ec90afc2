package panelbook.wire.files;

import java.io.IOException;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;

/**
 * Reads run files in the text (ASCII) form of ISO 28178 and its predecessors: an identifying first line; keywords with
 * values, of which those that no standard defines are declared by {@code KEYWORD "NAME"}; the names of the fields between
 * BEGIN_DATA_FORMAT and END_DATA_FORMAT; one set of values a line between BEGIN_DATA and END_DATA. Text in quotation marks
 * may hold blanks, and a quotation mark when doubled; {@code #} outside of them begins a comment.
 */
final class IsoRunReader {

    static final List<String> FIELDS = List.of("RGB_R", "RGB_G", "RGB_B", "XYZ_X", "XYZ_Y", "XYZ_Z");

    /** Fields that name a set and say nothing about it. */
    private static final Set<String> PASSED_FIELDS = Set.of("SAMPLE_ID", "SAMPLE_NAME");

    /** Keywords of the standard and its predecessors that describe the file and change nothing about the readings. */
    private static final Set<String> STANDARD_KEYWORDS = Set.of(
            "ORIGINATOR",
            "FILE_DESCRIPTOR",
            "DESCRIPTOR",
            "DESCRIPTION",
            "CREATED",
            "MANUFACTURER",
            "PROD_DATE",
            "SERIAL",
            "MATERIAL",
            "INSTRUMENTATION",
            "MEASUREMENT_SOURCE",
            "MEASUREMENT_GEOMETRY",
            "PRINT_CONDITIONS",
            "SAMPLE_BACKING",
            "CHISQ_DOF",
            "FILTER",
            "POLARIZATION",
            "WEIGHTING_FUNCTION",
            "COMPUTATIONAL_PARAMETER",
            "TARGET_TYPE",
            "COLORANT",
            "TABLE_DESCRIPTOR",
            "TABLE_NAME");

    private static final Set<String> STRUCTURE_KEYWORDS = Set.of(
            "KEYWORD",
            "NUMBER_OF_FIELDS",
            "NUMBER_OF_SETS",
            "BEGIN_DATA_FORMAT",
            "END_DATA_FORMAT",
            "BEGIN_DATA",
            "END_DATA");

    /** Lines above the data, beyond which the file cannot be what it says it is. */
    private static final int MAX_HEAD_LINES = 10_000;

    /** Columns that a file may have, SAMPLE_ID and the like included. */
    private static final int MAX_FIELDS = 100;

    private final LineSource lines;
    private final Problems problems;
    private final MetadataCollector metadata;
    private final ReadingRows rows;
    private final Set<String> declared = new HashSet<>();
    private final List<String> tokens = new ArrayList<>();
    private int columns;
    private long formatLine;
    private int numberOfFields = -1;
    private int numberOfSets = -1;
    private long numberOfFieldsLine;
    private long numberOfSetsLine;

    IsoRunReader(LineSource lines, ReadOptions options, Problems problems) {
        this.lines = lines;
        this.problems = problems;
        this.metadata = new MetadataCollector(RunFileFormat.ISO_28178, problems);
        this.rows = new ReadingRows(FIELDS, options, problems);
    }

    /** Whether a first line says that the file is ISO 28178 or a predecessor (ANSI CGATS.5, CGATS.17, IT8.7). */
    static boolean identifies(String first) {
        String word = first.strip().toUpperCase(Locale.ROOT);
        return word.equals("ISO28178")
                || word.equals("ISO 28178")
                || word.startsWith("CGATS.")
                || word.startsWith("IT8.7/");
    }

    /** Whether a line begins with a keyword of such a file. */
    static boolean isKeyword(String line) {
        String bare = line.strip();
        int end = 0;
        while (end < bare.length() && bare.charAt(end) > ' ') {
            end++;
        }
        String word = bare.substring(0, end);
        return STRUCTURE_KEYWORDS.contains(word) || STANDARD_KEYWORDS.contains(word);
    }

    /** Reads on behind the identifying line. */
    RunFileResult read() throws IOException {
        readHead();
        return problems.none()
                ? new RunFileResult.Read(rows.build(metadata.metadata()), RunFileFormat.ISO_28178, problems.remarks())
                : problems.refused();
    }

    // ---- keywords

    private void readHead() throws IOException {
        long last = lines.line() + MAX_HEAD_LINES;
        while (nextTokens()) {
            if (tokens.get(0).equals("BEGIN_DATA")) {
                beginData();
                return;
            }
            readKeyword(tokens.get(0));
            if (lines.line() > last) {
                giveUp("there are more than " + MAX_HEAD_LINES + " lines above BEGIN_DATA. Reading stopped here: this"
                        + " is no run file");
            }
        }
        cutShort("BEGIN_DATA");
    }

    private void readKeyword(String keyword) throws IOException {
        switch (keyword) {
            case "KEYWORD" -> declared.add(value());
            case "BEGIN_DATA_FORMAT" -> readFormat();
            case "NUMBER_OF_FIELDS" -> {
                numberOfFields = number(keyword, numberOfFieldsLine);
                numberOfFieldsLine = lines.line();
            }
            case "NUMBER_OF_SETS" -> {
                numberOfSets = number(keyword, numberOfSetsLine);
                numberOfSetsLine = lines.line();
            }
            case "END_DATA", "END_DATA_FORMAT" ->
                problems.add(
                        RunFileReason.STRUCTURE,
                        lines.line(),
                        keyword,
                        null,
                        "stands here without its beginning. Restore the line BEGIN" + keyword.substring(3)
                                + " above it");
            default -> readOther(keyword);
        }
    }

    private void readOther(String keyword) {
        MetadataKey key =
                keyword.startsWith(MetadataKey.ISO_PREFIX) ? MetadataKey.find(keyword, RunFileFormat.ISO_28178) : null;
        if (key != null) {
            metadata.put(key, value(), lines.line());
        } else if (keyword.startsWith(MetadataKey.ISO_PREFIX)) {
            List<String> names = MetadataKey.names(RunFileFormat.ISO_28178);
            unknownKeyword(keyword, names, " Known are " + String.join(", ", names));
        } else if (!STANDARD_KEYWORDS.contains(keyword) && !declared.contains(keyword)) {
            List<String> names = new ArrayList<>(STANDARD_KEYWORDS);
            names.addAll(STRUCTURE_KEYWORDS);
            names.addAll(MetadataKey.names(RunFileFormat.ISO_28178));
            names.sort(null);
            unknownKeyword(
                    keyword,
                    names,
                    " A keyword of your own is declared by a line above it: KEYWORD \"" + Problems.excerpt(keyword)
                            + "\"");
        }
    }

    private void unknownKeyword(String keyword, List<String> names, String advice) {
        problems.add(
                RunFileReason.METADATA_UNKNOWN,
                lines.line(),
                keyword,
                null,
                "is no keyword that the reader knows." + Names.suggestion(keyword, names) + advice);
    }

    private String value() {
        return tokens.size() < 2
                ? ""
                : String.join(" ", tokens.subList(1, tokens.size())).strip();
    }

    private int number(String keyword, long earlier) {
        if (earlier != 0) {
            problems.add(
                    RunFileReason.METADATA_REPEATED,
                    lines.line(),
                    keyword,
                    value(),
                    "stands in line " + earlier + " already. Keep one of the two");
        }
        int number = Numbers.wholeOrMinusOne(value());
        if (number < 0) {
            problems.add(
                    RunFileReason.METADATA_MALFORMED,
                    lines.line(),
                    keyword,
                    value(),
                    "'" + Problems.excerpt(value()) + "' is not a number. Write the whole number behind " + keyword);
        }
        return number;
    }

    // ---- names of the fields

    private void readFormat() throws IOException {
        if (formatLine != 0) {
            giveUp("BEGIN_DATA_FORMAT stands in line " + formatLine + " already. Reading stopped here: a run file has"
                    + " one table; split the file");
            return;
        }
        formatLine = lines.line();
        List<String> excused = new ArrayList<>();
        tokens.remove(0);
        do {
            int end = tokens.indexOf("END_DATA_FORMAT");
            for (String name : end < 0 ? tokens : tokens.subList(0, end)) {
                readField(name, excused);
            }
            if (end >= 0) {
                tokens.subList(0, end).clear();
                checkAlone("END_DATA_FORMAT");
                rows.reportMissing(formatLine, excused);
                return;
            }
        } while (columns <= MAX_FIELDS && nextTokens());
        if (columns > MAX_FIELDS) {
            giveUp("there are more than " + MAX_FIELDS + " fields behind BEGIN_DATA_FORMAT. Reading stopped here: a"
                    + " run needs " + String.join(", ", FIELDS) + "; close the list by END_DATA_FORMAT");
        } else {
            cutShort("END_DATA_FORMAT");
        }
    }

    private void readField(String name, List<String> excused) {
        int column = columns++;
        if (rows.takeColumn(name, column, lines.line()) || PASSED_FIELDS.contains(name.toUpperCase(Locale.ROOT))) {
            return;
        }
        String nearest = Names.nearest(name, FIELDS);
        if (nearest != null) {
            excused.add(nearest);
        }
        problems.add(
                RunFileReason.COLUMN_UNKNOWN,
                lines.line(),
                name,
                null,
                "is no field of a run file." + Names.suggestion(name, FIELDS) + " Known fields are SAMPLE_ID, "
                        + String.join(", ", FIELDS) + "; export without the others");
    }

    // ---- data

    private void beginData() throws IOException {
        if (formatLine == 0) {
            giveUp("there is no BEGIN_DATA_FORMAT above BEGIN_DATA, so the fields have no names. Add the lines"
                    + " BEGIN_DATA_FORMAT, then SAMPLE_ID " + String.join(" ", FIELDS) + ", then END_DATA_FORMAT");
            return;
        }
        checkAlone("BEGIN_DATA");
        checkHead();
        readData();
    }

    private void checkHead() {
        String unit = MetadataKey.LUMINANCE_UNIT.isoName();
        if (metadata.line(MetadataKey.LUMINANCE_UNIT) == 0) {
            problems.add(
                    RunFileReason.UNIT_MISSING,
                    lines.line(),
                    unit,
                    null,
                    "is missing, and XYZ in such files are usually relative. When yours are absolute, in cd/m², add"
                            + " above BEGIN_DATA_FORMAT the lines KEYWORD \"" + unit + "\" and " + unit + " \"cd/m2\"");
        }
        if (numberOfFields >= 0 && numberOfFields != columns) {
            problems.add(
                    RunFileReason.COUNT_DISAGREES,
                    numberOfFieldsLine,
                    "NUMBER_OF_FIELDS",
                    String.valueOf(numberOfFields),
                    numberOfFields + " fields are announced and " + columns + " are named from line " + formatLine
                            + " on. Correct the number, or export the run again");
        }
    }

    private void readData() throws IOException {
        while (nextTokens()) {
            if (tokens.get(0).equals("END_DATA")) {
                endData();
                return;
            }
            if (!rows.countRow(lines.line())) {
                lines.stop();
            } else if (tokens.size() == columns) {
                rows.take(tokens, lines.line());
            } else {
                problems.add(RunFileReason.FIELD_COUNT, lines.line(), fieldCount());
            }
        }
        cutShort("END_DATA");
    }

    /** Nothing may stand behind these words, lest it be passed over. */
    private void checkAlone(String keyword) {
        if (tokens.size() > 1) {
            problems.add(
                    RunFileReason.STRUCTURE,
                    lines.line(),
                    keyword,
                    tokens.get(1),
                    "'" + Problems.excerpt(tokens.get(1)) + "' stands behind it. Put it on a line of its own");
        }
    }

    private String fieldCount() {
        return "this line has " + tokens.size() + " values and BEGIN_DATA_FORMAT names " + columns
                + " fields. Write each set on a line of its own, complete, with names that hold blanks in quotation"
                + " marks";
    }

    private void endData() throws IOException {
        long endLine = lines.line();
        checkAlone("END_DATA");
        if (rows.rows() == 0) {
            problems.add(
                    RunFileReason.NO_READINGS,
                    endLine,
                    "there is no reading between BEGIN_DATA and END_DATA. Export the run again");
        } else if (numberOfSets < 0 && numberOfSetsLine == 0) {
            problems.remark("NUMBER_OF_SETS is missing, which the standard asks for; END_DATA is there, so the "
                    + rows.rows() + " readings were taken");
        } else if (numberOfSets >= 0 && numberOfSets != rows.rows()) {
            problems.add(
                    RunFileReason.COUNT_DISAGREES,
                    numberOfSetsLine,
                    "NUMBER_OF_SETS",
                    String.valueOf(numberOfSets),
                    numberOfSets + " sets are announced and " + rows.rows() + " are there. Copy or export the file"
                            + " again, or correct the number when lines were added or deleted on purpose");
        }
        if (nextTokens()) {
            giveUp("something follows END_DATA in line " + endLine + ". Reading stopped here: a run file has one"
                    + " table; split the file");
        }
    }

    // ---- lines

    /** Reads on to the next line that holds something; false at the end. */
    private boolean nextTokens() throws IOException {
        for (String line = lines.next(); line != null; line = lines.next()) {
            if (!lines.spoiled() && tokenize(line) && !tokens.isEmpty()) {
                return true;
            }
        }
        return false;
    }

    private boolean tokenize(String line) {
        tokens.clear();
        int at = 0;
        while (at < line.length()) {
            char c = line.charAt(at);
            if (c == '#') {
                return true;
            }
            if (c == ' ' || c == '\t') {
                at++;
            } else {
                at = c == '"' ? quoted(line, at) : word(line, at);
            }
            if (at < 0) {
                return false;
            }
        }
        return true;
    }

    private int word(String line, int from) {
        int end = from;
        while (end < line.length() && line.charAt(end) != ' ' && line.charAt(end) != '\t') {
            end++;
        }
        tokens.add(line.substring(from, end));
        return end;
    }

    private int quoted(String line, int open) {
        int close = line.indexOf('"', open + 1);
        while (close >= 0 && close + 1 < line.length() && line.charAt(close + 1) == '"') {
            close = line.indexOf('"', close + 2);
        }
        if (close < 0) {
            problems.add(
                    RunFileReason.QUOTE_OPEN,
                    lines.line(),
                    null,
                    line.substring(open),
                    "a quotation mark is not closed on its line. Close it, or write a quotation mark inside of text"
                            + " twice");
            return -1;
        }
        tokens.add(line.substring(open + 1, close).replace("\"\"", "\""));
        return close + 1;
    }

    private void giveUp(String message) {
        problems.add(RunFileReason.STRUCTURE, lines.line(), message);
        lines.stop();
    }

    private void cutShort(String expected) {
        if (!lines.stopped()) {
            problems.add(
                    RunFileReason.CUT_SHORT,
                    lines.line(),
                    expected,
                    null,
                    "is missing: the file ends before it and was cut short. Copy or export it again");
            lines.stop();
        }
    }
}
