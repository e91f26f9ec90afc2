package panelbook.cli.book;

import de.siegmar.fastcsv.reader.CsvRecord;
import de.siegmar.fastcsv.writer.CsvWriter;
import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import panelbook.wire.DisplayEntry;
import panelbook.wire.FacilityBook;
import panelbook.wire.PresetEntry;
import panelbook.wire.RoomEntry;

/**
 * Facility books as CSV (RFC 4180, UTF-8): a row per preset, with its display, room and facility in every row. What rows
 * say of the same display or room must be the same.
 */
final class BookCsv {

    static final List<String> COLUMNS = List.of(BookFile.CSV_COLUMNS.split(", "));

    private static final List<String> NEEDED = List.of("facility", "time_zone", "room");

    private BookCsv() {}

    static BookFile.Tree read(String file, byte[] bytes) {
        var reading = new Reading(file);
        reading.read(bytes);
        return new BookFile.Tree(reading.book, reading.lines, reading.problems());
    }

    private static final class Reading extends CsvRows {

        private final Map<String, Integer> lines = new HashMap<>();
        private final Map<String, @Nullable Object> book = new LinkedHashMap<>();
        private final Map<String, Place> places = new HashMap<>();
        /** A group already met: where it lies in the tree, and its fields. */
        private record Place(String pointer, Map<String, @Nullable Object> fields, List<@Nullable Object> children) {}

        Reading(String file) {
            super(file, COLUMNS, NEEDED);
        }

        @Override
        protected void row(CsvRecord row) {
            if (!facility(row)) {
                return;
            }
            var room = cell(row, "room");
            if (room == null) {
                wrong(row, "room", "is missing");
                return;
            }
            var roomPlace = group(
                    row,
                    null,
                    "rooms",
                    room,
                    "displays",
                    fields(row, "timeZone", "room_time_zone"),
                    List.of("room_time_zone"));
            display(row, roomPlace);
        }

        private boolean facility(CsvRecord row) {
            for (var pair : List.of(List.of("name", "facility"), List.of("timeZone", "time_zone"))) {
                var value = cell(row, pair.get(1));
                if (value == null) {
                    wrong(row, pair.get(1), "is missing");
                    return false;
                }
                var before = book.putIfAbsent(pair.get(0), value);
                lines.putIfAbsent("/" + pair.get(0), line(row));
                if (before != null && !before.equals(value)) {
                    wrong(
                            row,
                            pair.get(1),
                            "is \"" + value + "\" here and \"" + before + "\" above: a file holds one facility");
                    return false;
                }
            }
            return true;
        }

        private void display(CsvRecord row, Place room) {
            var display = cell(row, "display");
            if (display == null) {
                orphans(
                        row,
                        "display",
                        "model",
                        "panel_technology",
                        "serial_number",
                        "notes",
                        "preset",
                        "target",
                        "hero");
                return;
            }
            var fields = fields(
                    row,
                    "model",
                    "model",
                    "panelTechnology",
                    "panel_technology",
                    "serialNumber",
                    "serial_number",
                    "notes",
                    "notes");
            var place = group(
                    row,
                    room,
                    "displays",
                    display,
                    "presets",
                    fields,
                    List.of("model", "panel_technology", "serial_number", "notes"));
            preset(row, place);
        }

        private void preset(CsvRecord row, Place display) {
            var preset = cell(row, "preset");
            if (preset == null) {
                orphans(row, "preset", "target", "hero");
                return;
            }
            if (places.containsKey(display.pointer() + "\n" + preset)) {
                wrong(row, "preset", "\"" + preset + "\" stands there twice for this display");
                return;
            }
            group(row, display, "presets", preset, null, fields(row, "target", "target", "hero", "hero"), List.of());
        }

        private void orphans(CsvRecord row, String without, String... columnsBelow) {
            for (var column : columnsBelow) {
                if (cell(row, column) != null) {
                    wrong(row, column, "stands in a row without " + without);
                }
            }
        }

        private Map<String, @Nullable Object> fields(CsvRecord row, String... namesAndColumns) {
            var fields = new LinkedHashMap<String, @Nullable Object>();
            for (var i = 0; i < namesAndColumns.length; i += 2) {
                var value = cell(row, namesAndColumns[i + 1]);
                if (value != null) {
                    fields.put(namesAndColumns[i], value);
                }
            }
            return fields;
        }

        /** The group of that name, made when it is met first; what later rows say of it must be the same or nothing. */
        private Place group(
                CsvRecord row,
                @Nullable Place parent,
                String list,
                String name,
                @Nullable String childList,
                Map<String, @Nullable Object> fields,
                List<String> columnsOfIt) {
            var key = (parent == null ? "" : parent.pointer()) + "\n" + name;
            var known = places.get(key);
            if (known != null) {
                agree(row, known, fields, columnsOfIt);
                return known;
            }
            var siblings = parent == null ? roomList() : parent.children();
            var pointer = (parent == null ? "" : parent.pointer()) + "/" + list + "/" + siblings.size();
            var all = new LinkedHashMap<String, @Nullable Object>();
            all.put("name", name);
            all.putAll(fields);
            var children = new ArrayList<@Nullable Object>();
            if (childList != null) {
                all.put(childList, children);
            }
            siblings.add(all);
            lines.put(pointer, line(row));
            var place = new Place(pointer, all, children);
            places.put(key, place);
            return place;
        }

        private void agree(CsvRecord row, Place known, Map<String, @Nullable Object> fields, List<String> columnsOfIt) {
            fields.forEach((field, value) -> {
                var before = known.fields().putIfAbsent(field, value);
                if (before != null && !Objects.equals(before, value)) {
                    wrong(
                            row,
                            String.join("/", columnsOfIt),
                            "\"" + value + "\" here, \"" + before + "\" above for the same "
                                    + (known.fields().containsKey("presets") ? "display" : "room"));
                }
            });
        }

        @SuppressWarnings("unchecked")
        private List<@Nullable Object> roomList() {
            return (List<@Nullable Object>)
                    Objects.requireNonNull(book.computeIfAbsent("rooms", r -> new ArrayList<@Nullable Object>()));
        }

        private static int line(CsvRecord row) {
            return (int) row.getStartingLineNumber();
        }
    }

    static String write(FacilityBook book) {
        var text = new StringWriter();
        try (var csv = CsvWriter.builder().build(text)) {
            write(book, csv);
        } catch (IOException e) {
            throw new UncheckedIOException(e); // memory does not fail
        }
        return text.toString().replace("\r\n", "\n");
    }

    private static void write(FacilityBook book, CsvWriter csv) {
        csv.writeRecord(COLUMNS);
        for (var room : book.rooms()) {
            if (room.displays().isEmpty()) {
                csv.writeRecord(row(book, room, null, null));
            }
            for (var display : room.displays()) {
                if (display.presets().isEmpty()) {
                    csv.writeRecord(row(book, room, display, null));
                }
                display.presets().forEach(preset -> csv.writeRecord(row(book, room, display, preset)));
            }
        }
    }

    private static List<String> row(
            FacilityBook book, RoomEntry room, @Nullable DisplayEntry display, @Nullable PresetEntry preset) {
        var row = new ArrayList<String>();
        row.add(book.name());
        row.add(book.timeZone());
        row.add(room.name());
        row.add(text(room.timeZone()));
        row.add(display == null ? "" : display.name());
        row.add(display == null ? "" : display.model());
        row.add(display == null ? "" : display.panelTechnology());
        row.add(display == null ? "" : text(display.serialNumber()));
        row.add(display == null ? "" : text(display.notes()));
        row.add(preset == null ? "" : preset.name());
        row.add(preset == null ? "" : preset.target());
        row.add(preset == null ? "" : preset.hero() ? "yes" : "no");
        return row;
    }

    private static String text(@Nullable String text) {
        return text == null ? "" : text;
    }
}
