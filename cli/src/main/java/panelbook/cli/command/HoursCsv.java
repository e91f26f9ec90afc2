package panelbook.cli.command;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;
import panelbook.wire.PanelHoursEntry;

/** Panel hours as CSV (RFC 4180, UTF-8): display, at, hours and, if wanted, note, named in the first line. */
final class HoursCsv {

    private static final String DISPLAY = "display";
    private static final String AT = "at";
    private static final String HOURS = "hours";
    private static final String NOTE = "note";
    private static final List<String> NEEDED = List.of(DISPLAY, AT, HOURS);
    private static final List<String> COLUMNS = List.of(DISPLAY, AT, HOURS, NOTE);

    private final String file;
    private final Function<String, UUID> displays;
    private final Map<String, Object> found = new HashMap<>();
    private final List<String> problems = new ArrayList<>();
    private final List<PanelHoursEntry> values = new ArrayList<>();
    private final List<Long> lines = new ArrayList<>();
    private List<String> columns = List.of();

    private HoursCsv(String file, Function<String, UUID> displays) {
        this.file = file;
        this.displays = displays;
    }

    /**
     * Values and where they stand.
     *
     * @param lines of the file, one for each value
     */
    record Read(List<PanelHoursEntry> values, List<Long> lines) {}

    /**
     * Reads a file.
     *
     * @param displays finds a display by what the file calls it, or fails
     * @throws Failure with every place that is wrong
     */
    static Read read(String file, byte[] bytes, Function<String, UUID> displays) {
        var csv = new HoursCsv(file, displays);
        try {
            var text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            csv.rows(text.startsWith("\uFEFF") ? text.substring(1) : text);
        } catch (CharacterCodingException e) {
            csv.problems.add(file + ": it is not UTF-8 text");
        } catch (CsvParseException e) {
            csv.problems.add(file + ": " + e.getMessage());
        }
        if (!csv.problems.isEmpty()) {
            throw Failure.failedAt("Nothing was entered: put these right first.", csv.problems);
        }
        return new Read(csv.values, csv.lines);
    }

    private void rows(String text) {
        for (var row : CsvReader.builder()
                .allowExtraFields(true)
                .allowMissingFields(true)
                .ofCsvRecord(text)) {
            if (!columns.isEmpty()) {
                row(row);
            } else if (!header(row)) {
                return;
            }
        }
        if (columns.isEmpty()) {
            problems.add(file + " is empty: its first line must name the columns " + String.join(", ", COLUMNS));
        }
    }

    private boolean header(CsvRecord row) {
        columns = row.getFields().stream().map(String::strip).toList();
        for (var column : columns) {
            if (!COLUMNS.contains(column)) {
                wrong(row, column, "is not a column; the columns are: " + String.join(", ", COLUMNS));
            }
        }
        if (columns.stream().distinct().count() < columns.size()) {
            wrong(row, "header", "a column stands there twice");
        }
        NEEDED.stream().filter(c -> !columns.contains(c)).forEach(c -> wrong(row, c, "this column is missing"));
        return problems.isEmpty();
    }

    private void row(CsvRecord row) {
        if (row.getFieldCount() != columns.size()) {
            wrong(row, "row", "has " + row.getFieldCount() + " values where there are " + columns.size() + " columns");
            return;
        }
        var display = display(row);
        var at = at(row);
        var hours = hours(row);
        if (display != null && at != null && hours != null) {
            var note = cell(row, NOTE);
            values.add(new PanelHoursEntry(display, at, hours, note.isEmpty() ? null : note));
            lines.add(row.getStartingLineNumber());
        }
    }

    private @Nullable UUID display(CsvRecord row) {
        var name = cell(row, DISPLAY);
        var display = found.computeIfAbsent(name, unknown -> {
            try {
                return unknown.isEmpty() ? "is missing" : displays.apply(unknown);
            } catch (Failure e) {
                if (e instanceof panelbook.cli.service.ServiceAway) {
                    throw e;
                }
                return e.text();
            }
        });
        if (display instanceof UUID id) {
            return id;
        }
        wrong(row, DISPLAY, display.toString());
        return null;
    }

    private @Nullable Instant at(CsvRecord row) {
        try {
            return OffsetDateTime.parse(cell(row, AT)).toInstant();
        } catch (DateTimeException e) {
            wrong(row, AT, "must be a time with its offset, such as 2026-03-31T14:05:00+02:00");
            return null;
        }
    }

    private @Nullable Double hours(CsvRecord row) {
        try {
            var hours = Double.parseDouble(cell(row, HOURS));
            if (hours >= 0 && Double.isFinite(hours)) {
                return hours;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        wrong(row, HOURS, "must be a number, 0 or more, with a decimal point, such as 10250.5");
        return null;
    }

    private String cell(CsvRecord row, String column) {
        var index = columns.indexOf(column);
        return index < 0 ? "" : row.getField(index).strip();
    }

    private void wrong(CsvRecord row, String field, String message) {
        problems.add(file + ", line " + row.getStartingLineNumber() + ", " + field + ": " + message);
    }
}
