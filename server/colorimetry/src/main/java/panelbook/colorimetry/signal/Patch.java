package panelbook.colorimetry.signal;

import panelbook.colorimetry.Require;

/**
 * A colour sent to the display. Whether the codes are video depends on the range and depth that they are sent in; that
 * is checked where patches meet {@link CodeValues}.
 *
 * @param red code value, 0 to 65535
 * @param green code value, 0 to 65535
 * @param blue code value, 0 to 65535
 */
public record Patch(int red, int green, int blue) {
    private static final int MOST = 0xFFFF;

    public Patch {
        Require.within("red code", red, 0, MOST);
        Require.within("green code", green, 0, MOST);
        Require.within("blue code", blue, 0, MOST);
    }

    /**
     * A grey.
     *
     * @param code code value of all three channels
     * @return the patch
     */
    public static Patch grey(int code) {
        return new Patch(code, code, code);
    }

    /**
     * Whether all channels are alike.
     *
     * @return true for black, white and all between
     */
    public boolean isGrey() {
        return red == green && green == blue;
    }

    /**
     * In the way that a person reads it.
     *
     * @return such as "512/512/512"
     */
    @Override
    public String toString() {
        return red + "/" + green + "/" + blue;
    }
}
