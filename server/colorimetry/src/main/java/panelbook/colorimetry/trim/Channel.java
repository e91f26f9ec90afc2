package panelbook.colorimetry.trim;

import panelbook.colorimetry.signal.Patch;

/** One of the three. */
public enum Channel {
    RED,
    GREEN,
    BLUE;

    int code(Patch patch) {
        return switch (this) {
            case RED -> patch.red();
            case GREEN -> patch.green();
            case BLUE -> patch.blue();
        };
    }

    boolean isAlone(Patch patch, int black) {
        return code(patch) > black
                && patch.red() + patch.green() + patch.blue() - code(patch) == 2 * black
                && Math.min(patch.red(), Math.min(patch.green(), patch.blue())) == black;
    }
}
