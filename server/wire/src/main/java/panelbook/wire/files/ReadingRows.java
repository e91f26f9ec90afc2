package panelbook.wire.files;

import java.util.Arrays;
import java.util.List;

/** Turns rows of text into readings, the same for either format, and says what is wrong with them. */
final class ReadingRows {

    /** Roles of columns: the codes 0 to 2, the tristimulus values 3 to 5. */
    private static final int ROLES = 6;

    private final List<String> fields;
    private final ReadOptions options;
    private final Problems problems;
    private final int[] columns = new int[ROLES];
    private final int[] codes = new int[3];
    private final double[] xyz = new double[3];
    private final RunFile.Builder builder = RunFile.builder(RunMetadata.empty());
    private int rows;

    /**
     * Starts without any column.
     *
     * @param fields names of the six columns in the format at hand: red, green, blue, X, Y, Z
     */
    ReadingRows(List<String> fields, ReadOptions options, Problems problems) {
        this.fields = fields;
        this.options = options;
        this.problems = problems;
        Arrays.fill(columns, -1);
    }

    /** Takes the next column if it is one of the six; false when it is not. */
    boolean takeColumn(String name, int column, long line) {
        for (int role = 0; role < ROLES; role++) {
            if (fields.get(role).equalsIgnoreCase(name)) {
                if (columns[role] >= 0) {
                    problems.add(
                            RunFileReason.COLUMN_REPEATED,
                            line,
                            name,
                            null,
                            "stands twice, as column " + (columns[role] + 1) + " and " + (column + 1)
                                    + ". Keep one of the two");
                }
                columns[role] = column;
                return true;
            }
        }
        return false;
    }

    /** Reports the columns that are not there; {@code excused} holds those whose absence another problem explains. */
    void reportMissing(long line, List<String> excused) {
        for (int role = 0; role < ROLES; role++) {
            String field = fields.get(role);
            if (columns[role] < 0 && !excused.contains(field)) {
                problems.add(
                        RunFileReason.COLUMN_MISSING,
                        line,
                        field,
                        null,
                        "is missing. A run needs " + String.join(", ", fields) + "; add it");
            }
        }
    }

    /** Number of rows that were seen, good or bad. */
    int rows() {
        return rows;
    }

    /** Counts a row; false, with a problem, when it is one above what a run may hold, so that reading must stop. */
    boolean countRow(long line) {
        if (rows == options.maxReadings()) {
            problems.add(
                    RunFileReason.TOO_MANY_READINGS,
                    line,
                    "this is reading " + (rows + 1) + ", and a run holds at most " + options.maxReadings()
                            + ". Reading stopped here: split the file into several runs");
            return false;
        }
        rows++;
        return true;
    }

    /** Takes the row counted last. */
    void take(List<String> values, long line) {
        boolean good = true;
        for (int role = 0; role < ROLES; role++) {
            good &= columns[role] >= 0 && parse(role, values.get(columns[role]), line);
        }
        if (good) {
            add(line);
        }
    }

    /** The run. Only when there was no problem. */
    RunFile build(RunMetadata metadata) {
        return builder.build(metadata);
    }

    private void add(long line) {
        long before = builder.lineOf(codes[0], codes[1], codes[2]);
        if (before >= 0) {
            String patch = codes[0] + ", " + codes[1] + ", " + codes[2];
            problems.add(
                    RunFileReason.PATCH_REPEATED,
                    line,
                    fields.get(0) + ", " + fields.get(1) + ", " + fields.get(2),
                    patch,
                    "the patch " + patch + " stands in line " + before + " and in line " + line
                            + ". A run has each patch once: delete one of the lines, or put repeats in runs of their"
                            + " own");
            return;
        }
        builder.addChecked(codes[0], codes[1], codes[2], xyz[0], xyz[1], xyz[2], line);
    }

    private boolean parse(int role, String text, long line) {
        return role < 3 ? parseCode(role, text, line) : parseTristimulus(role, text, line);
    }

    private boolean parseCode(int role, String text, long line) {
        int code = Numbers.wholeOrMinusOne(text);
        if (code >= 0 && options.codeRange().contains(code)) {
            codes[role] = code;
            return true;
        }
        if (code >= 0 || Numbers.isDecimal(text)) {
            reportCode(role, text, line);
        } else {
            reportNoNumber(role, text, line, "a whole number of code values, such as 512");
        }
        return false;
    }

    private void reportCode(int role, String text, long line) {
        double value = Double.parseDouble(text);
        CodeRange range = options.codeRange();
        String shown = Problems.excerpt(text);
        if (value < range.minInclusive() || value > range.maxInclusive() || isWhole(text)) {
            reportOutOfRange(problems, fields.get(role), text, range, line);
            return;
        }
        problems.add(RunFileReason.CODE_NOT_WHOLE, line, fields.get(role), text, notWhole(value, shown));
    }

    private static void reportOutOfRange(Problems problems, String field, String text, CodeRange range, long line) {
        problems.add(
                RunFileReason.CODE_OUT_OF_RANGE,
                line,
                field,
                text,
                Problems.excerpt(text) + " lies outside " + range.minInclusive() + " to " + range.maxInclusive() + " ("
                        + range.label() + "). " + outOfRangeAdvice(Double.parseDouble(text)));
    }

    /** Reports the codes of a reading that was read before the range was known. */
    static void checkCodes(FileReading reading, List<String> fields, CodeRange range, Problems problems) {
        int[] codes = {reading.red(), reading.green(), reading.blue()};
        for (int role = 0; role < 3; role++) {
            if (!range.contains(codes[role])) {
                reportOutOfRange(problems, fields.get(role), String.valueOf(codes[role]), range, reading.line());
            }
        }
    }

    /** Digits only, be they too many for an int. */
    private static boolean isWhole(String text) {
        return text.chars().allMatch(c -> c >= '0' && c <= '9');
    }

    private static String outOfRangeAdvice(double value) {
        if (value > 0 && value < 1) {
            return "It looks like a signal level between 0 and 1: multiply by the top code value and round";
        }
        return "Write code values of the target's bit depth and signal range";
    }

    private String notWhole(double value, String shown) {
        if (value == Math.rint(value)) {
            return shown + " is not written as a whole number, which code values are: write " + (long) value;
        }
        if (value < 1) {
            return shown + " is no code value; it looks like a signal level between 0 and 1. Multiply by the top code"
                    + " value (1023 for 10-bit full range) and round: the code value that was really sent is needed";
        }
        return shown + " is not whole. Write the code value that was really sent to the display, a whole number";
    }

    private boolean parseTristimulus(int role, String text, long line) {
        if (!Numbers.isDecimal(text)) {
            reportNoTristimulus(role, text, line);
            return false;
        }
        double value = Double.parseDouble(text);
        if (value < 0) {
            problems.add(
                    RunFileReason.TRISTIMULUS_NEGATIVE,
                    line,
                    fields.get(role),
                    text,
                    Problems.excerpt(text) + " cd/m² is negative, and light is not. Near black this is the"
                            + " instrument's noise or a dark offset: zero the instrument and measure the patch again");
            return false;
        }
        if (value == Double.POSITIVE_INFINITY) {
            reportNotFinite(role, text, line);
            return false;
        }
        xyz[role - 3] = value + 0.0; // no negative zero
        return true;
    }

    private void reportNoTristimulus(int role, String text, long line) {
        switch (Names.plain(text).replaceFirst("^[+-]", "")) {
            case "nan", "1.#ind", "1.#qnan", "inf", "infinity", "1.#inf", "∞" -> reportNotFinite(role, text, line);
            default -> reportNoNumber(role, text, line, "a number of cd/m², such as 100.25");
        }
    }

    private void reportNotFinite(int role, String text, long line) {
        problems.add(
                RunFileReason.TRISTIMULUS_NOT_FINITE,
                line,
                fields.get(role),
                text,
                "'" + Problems.excerpt(text) + "' is not a finite number: the instrument gave no result. Measure the"
                        + " patch again, or delete the line");
    }

    private void reportNoNumber(int role, String text, long line, String wanted) {
        String field = fields.get(role);
        if (text.isEmpty()) {
            problems.add(
                    RunFileReason.NUMBER_UNREADABLE,
                    line,
                    field,
                    text,
                    "is empty. Write " + wanted + ", or delete the line and measure the patch again");
        } else if (Numbers.hasDecimalComma(text)) {
            problems.add(
                    RunFileReason.DECIMAL_COMMA,
                    line,
                    field,
                    text,
                    "'" + Problems.excerpt(text) + "' has a decimal comma. Write a point ("
                            + Problems.excerpt(text.replace(',', '.')) + "), or export with"
                            + " English number format");
        } else {
            problems.add(
                    RunFileReason.NUMBER_UNREADABLE,
                    line,
                    field,
                    text,
                    "'" + Problems.excerpt(text) + "' is not a number. Write " + wanted);
        }
    }
}
