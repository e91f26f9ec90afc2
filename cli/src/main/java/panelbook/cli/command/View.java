package panelbook.cli.command;

import java.util.List;
import panelbook.cli.terminal.Column;

/**
 * How things of a kind are shown.
 *
 * @param type their record
 * @param columns of a list
 * @param fields of one
 */
record View<T extends Record>(Class<T> type, List<Column<T>> columns, List<Column<T>> fields) {

    /** A view whose single things show the same as a row. */
    static <T extends Record> View<T> of(Class<T> type, List<Column<T>> columns) {
        return new View<>(type, columns, columns);
    }
}
