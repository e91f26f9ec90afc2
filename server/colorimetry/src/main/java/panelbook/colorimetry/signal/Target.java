package panelbook.colorimetry.signal;

import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.XYZ;

/**
 * What a preset is calibrated to.
 *
 * @param space primaries of the signal and white
 * @param eotf signal to light
 * @param codes range and bit depth of the signal
 * @param aims black and peak luminance aimed at, cd/m2
 */
public record Target(RgbSpace space, Eotf eotf, CodeValues codes, LuminanceRange aims) {
    /**
     * The colours that this target asks of a display.
     *
     * @param range black and white luminance that the display has, cd/m2
     * @return expected colours; not safe for use by several threads
     */
    public ExpectedColours on(LuminanceRange range) {
        return new ExpectedColours(this, range);
    }

    /**
     * The white at the peak luminance aimed at.
     *
     * @return X, Y, Z, cd/m2
     */
    public XYZ white() {
        return XYZ.of(space.white(), aims.white());
    }
}
