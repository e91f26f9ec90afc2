package panelbook.cli.command;

import de.siegmar.fastcsv.reader.CsvRecord;
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
import panelbook.cli.book.CsvRows;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.Failure;
import panelbook.wire.PanelHoursEntry;

/** Panel hours as CSV (RFC 4180, UTF-8): display, at, hours and, if wanted, note, named in the first line. */
final class HoursCsv extends CsvRows {

    private static final String DISPLAY = "display";
    private static final String AT = "at";
    private static final String HOURS = "hours";
    private static final String NOTE = "note";
    private static final List<String> NEEDED = List.of(DISPLAY, AT, HOURS);
    private static final List<String> COLUMNS = List.of(DISPLAY, AT, HOURS, NOTE);

    private final Function<String, UUID> displays;
    private final Map<String, Object> found = new HashMap<>();
    private final List<PanelHoursEntry> values = new ArrayList<>();
    private final List<Long> lines = new ArrayList<>();

    private HoursCsv(String file, Function<String, UUID> displays) {
        super(file, COLUMNS, NEEDED);
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
        csv.read(bytes);
        if (!csv.problems().isEmpty()) {
            throw Failure.failedAt("Nothing was entered: put these right first.", csv.problems());
        }
        return new Read(csv.values, csv.lines);
    }

    @Override
    protected void row(CsvRecord row) {
        var display = display(row);
        var at = at(row);
        var hours = hours(row);
        if (display != null && at != null && hours != null) {
            values.add(new PanelHoursEntry(display, at, hours, cell(row, NOTE)));
            lines.add(row.getStartingLineNumber());
        }
    }

    private @Nullable UUID display(CsvRecord row) {
        var name = cell(row, DISPLAY);
        if (name == null) {
            wrong(row, DISPLAY, "is missing");
            return null;
        }
        var display = found.computeIfAbsent(name, unknown -> {
            try {
                return displays.apply(unknown);
            } catch (Failure e) {
                if (e instanceof ServiceAway) {
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
            return OffsetDateTime.parse(or(cell(row, AT))).toInstant();
        } catch (DateTimeException e) {
            wrong(row, AT, "must be a time with its offset, such as 2026-03-31T14:05:00+02:00");
            return null;
        }
    }

    private @Nullable Double hours(CsvRecord row) {
        try {
            var hours = Double.parseDouble(or(cell(row, HOURS)));
            if (hours >= 0 && Double.isFinite(hours)) {
                return hours;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        wrong(row, HOURS, "must be a number, 0 or more, with a decimal point, such as 10250.5");
        return null;
    }

    private static String or(@Nullable String cell) {
        return cell == null ? "" : cell;
    }
}
