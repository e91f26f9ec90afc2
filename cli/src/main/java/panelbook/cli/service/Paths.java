package panelbook.cli.service;

import panelbook.wire.Display;
import panelbook.wire.Preset;
import panelbook.wire.Room;

/** Paths by which people name things: FACILITY/ROOM/DISPLAY/PRESET. */
public final class Paths {

    private static final String NO_ROOM = "-";

    private Paths() {}

    /** Path of a room. */
    public static String of(Room room) {
        return room.facility() + "/" + room.name();
    }

    /** Path of a display; a display that stands in no room has - for the room. */
    public static String of(Display display) {
        return display.facility() + "/" + (display.room() == null ? NO_ROOM : display.room()) + "/" + display.name();
    }

    /** Path of a preset; a display that stands in no room has - for the room. */
    public static String of(Preset preset) {
        return preset.facility() + "/" + (preset.room() == null ? NO_ROOM : preset.room()) + "/" + preset.display()
                + "/" + preset.name();
    }

    /** Whether a path is, or ends with, what a person typed. */
    public static boolean endsWith(String path, String reference) {
        return path.equals(reference) || path.endsWith("/" + reference);
    }
}
