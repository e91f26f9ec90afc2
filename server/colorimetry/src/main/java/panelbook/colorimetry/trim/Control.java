package panelbook.colorimetry.trim;

/**
 * A control of a display, as far as one trim goes.
 *
 * @param name such as "gain red"
 * @param level part of the tone scale that it is set for, in the display's own words; empty where there is but one
 */
public record Control(String name, String level) implements Comparable<Control> {
    public Control {
        if (name.isBlank()) {
            throw new IllegalArgumentException("a control must have a name");
        }
    }

    /**
     * A control for the whole tone scale.
     *
     * @param name such as "gain red"
     * @return the control
     */
    public static Control of(String name) {
        return new Control(name, "");
    }

    @Override
    public int compareTo(Control other) {
        int byName = name.compareTo(other.name);
        return byName != 0 ? byName : level.compareTo(other.level);
    }

    @Override
    public String toString() {
        return level.isEmpty() ? name : name + " at " + level;
    }
}
