package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * Which correction a meter is read with on a display of a room.
 *
 * @param display its name
 * @param correction that a run taken now would be read with, by name; null when none is on file
 */
public record SheetCorrection(String display, @Nullable String correction) {}
