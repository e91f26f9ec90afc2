package panelbook.wire;

/**
 * A preset in a facility book.
 *
 * @param target its name
 * @param hero whether it is the hero of the room for its target
 */
public record PresetEntry(String name, String target, boolean hero) {}
