package panelbook.cli.terminal;

import java.io.OutputStreamWriter;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.cli.json.Json;
import panelbook.cli.json.Records;

/**
 * The one place that knows whether a person looks. A table with header on a terminal; the same rows tab-separated,
 * without header and in full, in a pipe; with {@code --json} the records themselves, or the fields asked for.
 */
public final class Printer {

    private static final int GAP = 2;
    private static final int LEAST_LAST_COLUMN = 20;

    private final Surroundings at;
    private final @Nullable String json;

    /**
     * A printer.
     *
     * @param json null for tables; else names of fields, separated by commas, all when empty
     */
    public Printer(Surroundings at, @Nullable String json) {
        this.at = at;
        this.json = json;
    }

    /** Whether {@code --json} was asked for. */
    public boolean isJson() {
        return json != null;
    }

    /** Checks the fields of {@code --json} against a record, so that a wrong one is answered before any work is done. */
    public void checkFields(Class<? extends Record> type) {
        if (json != null) {
            fields(type);
        }
    }

    /** Prints a list of records. */
    public <T extends Record> void list(Class<T> type, List<T> items, List<Column<T>> columns) {
        if (json != null) {
            printJson(items.stream().map(item -> chosen(type, item)).toList());
        } else if (at.personReadsOut()) {
            printTable(items, columns);
        } else {
            items.forEach(item -> printRow(item, columns));
        }
    }

    /** Prints one record, a line per field. */
    public <T extends Record> void one(Class<T> type, T item, List<Column<T>> fields) {
        if (json != null) {
            printJson(chosen(type, item));
            return;
        }
        var widest = fields.stream().mapToInt(f -> f.title().length()).max().orElse(0);
        for (var field : fields) {
            var value = field.value().apply(item);
            at.out()
                    .println(
                            at.personReadsOut()
                                    ? line(field, value, widest)
                                    : field.title() + "\t" + Cells.full(value));
        }
        at.out().flush();
    }

    /** Prints one record on one line, as an item of a stream: JSON, or its columns. */
    public <T extends Record> void streamed(Class<T> type, T item, List<Column<T>> columns) {
        if (json != null) {
            at.out().println(Json.text(chosen(type, item)));
        } else if (at.personReadsOut()) {
            var cells = columns.stream().map(c -> brief(c.value().apply(item))).filter(c -> !c.isEmpty());
            at.out().println(cells.collect(Collectors.joining("  ")));
        } else {
            printRow(item, columns);
        }
        at.out().flush();
    }

    /** Prints an object that is no record of the contract, as JSON. */
    public void printJson(Object tree) {
        at.out().println(at.personReadsOut() ? Json.prettyText(tree) : Json.text(tree));
        at.out().flush();
    }

    /** A line of text among the results. */
    public void line(String text) {
        at.out().println(text);
        at.out().flush();
    }

    /** Says to the person what was done or what to do next; not part of the results. */
    public void say(String text) {
        at.err().println(text);
        at.err().flush();
    }

    private <T> String line(Column<T> field, @Nullable Object value, int widest) {
        return pad(field.title(), widest + GAP) + (value instanceof Instant ? Cells.full(value) : brief(value));
    }

    private String brief(@Nullable Object value) {
        return Cells.brief(value, at.clock().instant());
    }

    private <T> void printRow(T item, List<Column<T>> columns) {
        var cells = columns.stream().map(c -> Cells.full(c.value().apply(item))).toList();
        at.out().println(String.join("\t", cells));
    }

    private <T> void printTable(List<T> items, List<Column<T>> columns) {
        var rows = new ArrayList<List<String>>();
        rows.add(columns.stream().map(Column::title).toList());
        for (var item : items) {
            rows.add(columns.stream().map(c -> brief(c.value().apply(item))).toList());
        }
        var widths = widths(rows, columns.size());
        var out = new PrintWriter(new OutputStreamWriter(at.out(), StandardCharsets.UTF_8));
        rows.forEach(row -> out.println(tableLine(row, widths)));
        out.flush();
    }

    private static int[] widths(List<List<String>> rows, int columns) {
        var widths = new int[columns];
        for (var row : rows) {
            for (var i = 0; i < columns; i++) {
                widths[i] = Math.max(widths[i], length(row.get(i)));
            }
        }
        return widths;
    }

    private String tableLine(List<String> row, int[] widths) {
        var line = new StringBuilder();
        for (var i = 0; i < row.size() - 1; i++) {
            line.append(pad(row.get(i), widths[i] + GAP));
        }
        return line.append(cut(row.get(row.size() - 1), at.width() - length(line.toString())))
                .toString()
                .stripTrailing();
    }

    // only the last column is cut, and only when the terminal's width is known: names and ids stay whole
    private String cut(String text, int room) {
        if (at.width() == 0 || length(text) <= Math.max(room, LEAST_LAST_COLUMN)) {
            return text;
        }
        var end = text.offsetByCodePoints(0, Math.max(room, LEAST_LAST_COLUMN) - 1);
        return text.substring(0, end) + "…";
    }

    private static String pad(String text, int width) {
        return text + " ".repeat(Math.max(0, width - length(text)));
    }

    private static int length(String text) {
        return text.codePointCount(0, text.length());
    }

    private Object chosen(Class<? extends Record> type, Record item) {
        var names = fields(type);
        if (names.isEmpty()) {
            return item;
        }
        var all = Records.tree(item);
        var some = new LinkedHashMap<String, @Nullable Object>();
        names.forEach(name -> some.put(name, all.get(name)));
        return some;
    }

    private Collection<String> fields(Class<? extends Record> type) {
        if (json == null || json.isBlank()) {
            return List.of();
        }
        var known = Records.fields(type);
        var asked = List.of(json.trim().split("\\s*,\\s*"));
        for (var name : asked) {
            if (!known.contains(name)) {
                throw Failure.usage("There is no field \"" + name + "\". Use --json alone for all, or any of: "
                        + String.join(", ", known) + ".");
            }
        }
        return asked;
    }

    /** A map with one entry per column, for results that are no record. */
    public static Map<String, @Nullable Object> row(Object... namesAndValues) {
        var row = new LinkedHashMap<String, @Nullable Object>();
        for (var i = 0; i < namesAndValues.length; i += 2) {
            row.put((String) namesAndValues[i], namesAndValues[i + 1]);
        }
        return row;
    }
}
