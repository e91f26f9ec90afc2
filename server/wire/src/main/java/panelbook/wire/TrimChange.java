package panelbook.wire;

/**
 * A control to be turned.
 *
 * @param from how it stands, in clicks from its calibrated setting
 * @param to how it is to stand
 */
public record TrimChange(String control, String level, int from, int to) {

    /** By how many clicks. */
    public int clicks() {
        return to - from;
    }
}
