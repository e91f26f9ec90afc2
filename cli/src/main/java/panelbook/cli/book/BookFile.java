package panelbook.cli.book;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import panelbook.cli.json.Records;
import panelbook.cli.service.Refused;
import panelbook.cli.terminal.Failure;
import panelbook.wire.FacilityBook;

/** A facility book read from a file, with the line of every field, so that a refusal by the service names lines too. */
public final class BookFile {

    /** Columns of the CSV form. */
    public static final String CSV_COLUMNS =
            "facility, time_zone, room, room_time_zone, display, model, panel_technology, "
                    + "serial_number, notes, preset, target, hero";

    private static final int MOST_PROBLEMS = 50;

    /** Form of a file. */
    public enum Kind {
        /** YAML 1.2; holds everything. */
        YAML,
        /** CSV, a row per preset; holds rooms, displays and presets. */
        CSV;

        @Override
        public String toString() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /**
     * A file as a tree.
     *
     * @param lines line of each JSON pointer into the tree, from 1
     * @param problems what is wrong already, a line of text each
     */
    record Tree(@Nullable Object root, Map<String, Integer> lines, List<String> problems) {}

    private final String file;
    private final FacilityBook book;
    private final Map<String, Integer> lines;

    private BookFile(String file, FacilityBook book, Map<String, Integer> lines) {
        this.file = file;
        this.book = book;
        this.lines = lines;
    }

    /**
     * Reads a file.
     *
     * @param file its name, for messages
     * @throws Failure with everything that is wrong, each with line and field
     */
    public static BookFile read(String file, byte[] bytes, Kind kind) {
        var tree = kind == Kind.CSV ? BookCsv.read(file, bytes) : BookYaml.read(file, bytes);
        var problems = new ArrayList<>(tree.problems());
        if (problems.isEmpty()) {
            var reading = Records.readStrictly(FacilityBook.class, tree.root());
            var book = reading.value();
            if (book != null) {
                return new BookFile(file, book, tree.lines());
            }
            reading.misfits().forEach(m -> problems.add(place(file, tree.lines(), m.pointer()) + ": " + m.message()));
            if (problems.isEmpty()) {
                problems.add(file + " is empty");
            }
        }
        throw failure(file, problems);
    }

    private static Failure failure(String file, List<String> problems) {
        if (problems.size() == 1) {
            return Failure.failed(problems.get(0) + ". Nothing was entered; mend the file and enter it again.");
        }
        var places = new ArrayList<>(problems.subList(0, Math.min(MOST_PROBLEMS, problems.size())));
        if (places.size() < problems.size()) {
            places.add("and " + (problems.size() - places.size()) + " more");
        }
        return Failure.failedAt(
                file + " has " + problems.size() + " problems; nothing was entered. Mend these and enter it again:",
                places);
    }

    /** What was read. */
    public FacilityBook book() {
        return book;
    }

    /** A refusal by the service with lines of this file in place of pointers into the request. */
    public Failure placed(Refused refused) {
        var errors = refused.problem().errors();
        if (errors == null || errors.isEmpty()) {
            return refused;
        }
        var problems = errors.stream()
                .map(e -> place(file, lines, e.pointer()) + ": " + e.detail())
                .toList();
        return failure(file, problems);
    }

    private static String place(String file, Map<String, Integer> lines, String pointer) {
        var line = line(lines, pointer);
        var field = pointer.isEmpty() ? "" : ", " + field(pointer);
        return file + (line == null ? "" : ", line " + line) + field;
    }

    // a field that is missing has no line: its group's is the nearest
    private static @Nullable Integer line(Map<String, Integer> lines, String pointer) {
        var at = pointer;
        while (!lines.containsKey(at) && !at.isEmpty()) {
            at = at.substring(0, Math.max(0, at.lastIndexOf('/')));
        }
        return lines.get(at);
    }

    // /rooms/0/displays/1/name as people count: rooms[1].displays[2].name
    private static String field(String pointer) {
        var text = new StringBuilder();
        for (var part : pointer.substring(pointer.startsWith("/") ? 1 : 0).split("/")) {
            if (part.matches("\\d{1,9}")) {
                text.append('[').append(Integer.parseInt(part) + 1).append(']');
            } else {
                text.append(text.length() == 0 ? "" : ".").append(part);
            }
        }
        return text.toString();
    }

    /** The text of a book. */
    public static String write(FacilityBook book, Kind kind) {
        return kind == Kind.CSV ? BookCsv.write(book) : BookYaml.write(book);
    }
}
