package panelbook.cli.book;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** A CSV file (RFC 4180, UTF-8) whose first line names its columns. Whatever is wrong is noted with file, line and field. */
public abstract class CsvRows {

    private final String file;
    private final List<String> known;
    private final List<String> needed;
    private final List<String> problems = new ArrayList<>();
    private List<String> columns = List.of();

    /**
     * A file.
     *
     * @param known all columns that it may have
     * @param needed those that it must have
     */
    protected CsvRows(String file, List<String> known, List<String> needed) {
        this.file = file;
        this.known = known;
        this.needed = needed;
    }

    /** Takes a row that has as many values as there are columns. */
    protected abstract void row(CsvRecord row);

    /** Reads the file; with a header that is wrong no row is taken. */
    public final void read(byte[] bytes) {
        try {
            var text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            rows(text.startsWith("\uFEFF") ? text.substring(1) : text);
        } catch (CharacterCodingException e) {
            problems.add(file + ": it is not UTF-8 text");
        } catch (CsvParseException e) {
            var cause = e.getCause();
            problems.add(file + ": " + e.getMessage() + (cause == null ? "" : ": " + cause.getMessage()));
        }
    }

    /** Every place that is wrong. */
    public final List<String> problems() {
        return problems;
    }

    private void rows(String text) {
        for (var row : CsvReader.builder()
                .allowExtraFields(true)
                .allowMissingFields(true)
                .ofCsvRecord(text)) {
            if (columns.isEmpty()) {
                header(row);
                if (!problems.isEmpty()) {
                    return;
                }
            } else if (row.getFieldCount() == columns.size()) {
                row(row);
            } else {
                wrong(
                        row,
                        "row",
                        "has " + row.getFieldCount() + " values where there are " + columns.size() + " columns");
            }
        }
        if (columns.isEmpty()) {
            problems.add(file + " is empty: its first line must name the columns");
        }
    }

    private void header(CsvRecord row) {
        columns = row.getFields().stream().map(String::strip).toList();
        for (var column : columns) {
            if (!known.contains(column)) {
                wrong(row, column, "is not a column; the columns are: " + String.join(", ", known));
            }
        }
        if (columns.stream().distinct().count() < columns.size()) {
            wrong(row, "header", "a column stands there twice");
        }
        needed.stream().filter(c -> !columns.contains(c)).forEach(c -> wrong(row, c, "this column is missing"));
    }

    /** Notes that a field is wrong. */
    protected final void wrong(CsvRecord row, String field, String message) {
        problems.add(file + ", line " + row.getStartingLineNumber() + ", " + field + ": " + message);
    }

    /** A value without the blanks around it; null when it is empty or its column is not there. */
    protected final @Nullable String cell(CsvRecord row, String column) {
        var index = columns.indexOf(column);
        if (index < 0) {
            return null;
        }
        var text = row.getField(index).strip();
        return text.isEmpty() ? null : text;
    }
}
