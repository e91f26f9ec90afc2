package panelbook.app.fleet;

import org.jspecify.annotations.Nullable;
import panelbook.app.rest.Refusal;

/**
 * A preset's path for people: facility/room/display/preset; "-" stands for the room of a display that is in none.
 *
 * @param facility null when the path does not say
 */
record PresetPath(@Nullable String facility, String room, String display, String preset) {

    private static final String NO_ROOM = "-";

    /** Reads ROOM/DISPLAY/PRESET or FACILITY/ROOM/DISPLAY/PRESET. */
    static PresetPath parse(String path) {
        var names = path.split("/", -1);
        if (names.length < 3 || names.length > 4) {
            throw Refusal.invalid(
                    "path", "Must be ROOM/DISPLAY/PRESET or FACILITY/ROOM/DISPLAY/PRESET, but is \"" + path + "\".");
        }
        var skip = names.length - 3;
        return new PresetPath(skip == 0 ? null : names[0], names[skip], names[skip + 1], names[skip + 2]);
    }

    boolean inNoRoom() {
        return room.equals(NO_ROOM);
    }
}
