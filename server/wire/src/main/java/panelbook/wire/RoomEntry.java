package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A room in a facility book.
 *
 * @param timeZone the facility's when null
 */
public record RoomEntry(String name, @Nullable String timeZone, List<DisplayEntry> displays) {}
