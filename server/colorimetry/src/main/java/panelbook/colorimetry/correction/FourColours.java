package panelbook.colorimetry.correction;

import panelbook.colorimetry.XYZ;

/**
 * What one instrument reads of the four colours of a display.
 *
 * @param red the red primary alone, cd/m2
 * @param green the green primary alone, cd/m2
 * @param blue the blue primary alone, cd/m2
 * @param white all three together, cd/m2
 */
public record FourColours(XYZ red, XYZ green, XYZ blue, XYZ white) {

    /**
     * The reading of one of them.
     *
     * @param colour which
     * @return X, Y, Z, cd/m2
     */
    public XYZ of(FourColour colour) {
        return switch (colour) {
            case RED -> red;
            case GREEN -> green;
            case BLUE -> blue;
            case WHITE -> white;
        };
    }
}
