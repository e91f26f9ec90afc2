package panelbook.cli.terminal;

import java.util.function.Function;
import org.jspecify.annotations.Nullable;

/**
 * A column of a table.
 *
 * @param title header on a terminal
 * @param value the cell of a row: text, number, enum, instant, date, boolean or null
 */
public record Column<T>(String title, Function<T, @Nullable Object> value) {

    /** A column. */
    public static <T> Column<T> of(String title, Function<T, @Nullable Object> value) {
        return new Column<>(title, value);
    }
}
