package panelbook.wire.files;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Reads run files: CSV with a header row, or the text form of ISO 28178, told apart by content.
 *
 * <p>A CSV file:
 *
 * <pre>
 * # preset: Room 4/Left/HDR
 * # instrument: Meter 2
 * # purpose: check
 * # taken-at: 2026-11-25T09:30:00+01:00
 * # readings: 2
 * red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2
 * 0,0,0,0.0011,0.0012,0.0014
 * 1023,1023,1023,950.2,1000.1,1088.7
 * </pre>
 *
 * Columns may come in any order and be separated by comma, semicolon or tab; numbers have a decimal point. Lines that begin
 * with {@code ##}, or with {@code #} and hold no colon, are for people. In an ISO 28178 file the same metadata are keywords
 * such as {@code PANELBOOK_PRESET}, declared by {@code KEYWORD "PANELBOOK_PRESET"}, and {@code PANELBOOK_LUMINANCE_UNIT
 * "cd/m2"} must be there, because XYZ in such files is by custom relative.
 *
 * <p>Memory: one line, the readings (see {@link RunFile}) and the list of problems, whatever the size of the file.
 */
public final class RunFileReader {

    private RunFileReader() {}

    /** Reads with {@link ReadOptions#defaults()}. */
    public static RunFileResult read(InputStream in, String fileName) throws IOException {
        return read(in, fileName, ReadOptions.defaults());
    }

    /**
     * Reads a run file to its end, or until something shows that reading on is of no use.
     *
     * @param in the file; left open
     * @param fileName its name, for messages
     * @param options what to check, and limits
     * @return the run, or everything that is wrong
     * @throws IOException when the stream cannot be read
     */
    public static RunFileResult read(InputStream in, String fileName, ReadOptions options) throws IOException {
        Problems problems = new Problems(fileName, options.maxProblems());
        LineSource lines = new LineSource(in, options.maxBytes(), problems);
        String first = firstLine(lines);
        if (first == null) {
            if (problems.none()) {
                problems.add(
                        RunFileReason.EMPTY_FILE,
                        0,
                        "the file is empty. Export the run again; a run file has at least one reading");
            }
            return problems.refused();
        }
        if (IsoRunReader.identifies(first)) {
            return new IsoRunReader(lines, options, problems).read();
        }
        if (CsvRunReader.mayBegin(first)) {
            return new CsvRunReader(lines, options, problems).read(first);
        }
        if (!lines.spoiled()) {
            problems.add(RunFileReason.FORMAT_UNKNOWN, lines.line(), unknownFormat(first));
        }
        return problems.refused();
    }

    /**
     * Checks the code values of a run that was read before its target was known (the file names the preset, the preset has
     * the target), with the same answers as if the range had been given to {@link #read}.
     *
     * @param read what was read
     * @param fileName name of the file, for messages
     * @param range code values that the target allows
     * @return {@code read} itself, or the codes that are out of range with their lines
     */
    public static RunFileResult checkCodes(RunFileResult.Read read, String fileName, CodeRange range) {
        Problems problems = new Problems(fileName, ReadOptions.defaults().maxProblems());
        List<String> fields = read.format() == RunFileFormat.CSV ? CsvRunReader.FIELDS : IsoRunReader.FIELDS;
        for (FileReading reading : read.run()) {
            ReadingRows.checkCodes(reading, fields, range, problems);
        }
        return problems.none() ? read : problems.refused();
    }

    private static @Nullable String firstLine(LineSource lines) throws IOException {
        String line = lines.next();
        while (line != null && line.isBlank()) {
            line = lines.next();
        }
        return line;
    }

    private static String unknownFormat(String first) {
        if (first.startsWith("<")) {
            return "this is XML, which is not read. Export the text form of ISO 28178, or CSV with the header row "
                    + CsvRunReader.HEADER;
        }
        if (IsoRunReader.isKeyword(first)) {
            return "an ISO 28178 file begins with a line that says so. Put ISO28178 in the first line";
        }
        return "neither CSV nor ISO 28178. A CSV file begins with the header row " + CsvRunReader.HEADER
                + ", or with # lines above it; an ISO 28178 file with the line ISO28178";
    }
}
