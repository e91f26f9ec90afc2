package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A page of a list. Ask with {@code ?limit=} (1 to 500, 50 when absent) and {@code ?after=} the cursor.
 *
 * @param next cursor for the next page, null on the last
 */
public record Page<T>(List<T> items, @Nullable String next) {}
