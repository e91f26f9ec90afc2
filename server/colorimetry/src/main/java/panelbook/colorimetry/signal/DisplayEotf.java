package panelbook.colorimetry.signal;

/**
 * An EOTF on a display of given black and white: signal to light and back.
 *
 * <p>Light of a channel is scaled so that three equal channels give that luminance: multiplied by the matrix of
 * {@link panelbook.colorimetry.RgbSpace#toXyz} it is absolute XYZ. Every function here never falls as its argument rises.
 */
public abstract sealed class DisplayEotf permits PqOnDisplay, HlgOnDisplay, PowerOnDisplay {
    DisplayEotf() {}

    /**
     * Luminance of a grey.
     *
     * @param signal of all three channels, 0 for black, 1 for white
     * @return L, cd/m2
     */
    public final double luminance(double signal) {
        return greyLight(channel(signal));
    }

    /**
     * The signal of a grey of given luminance.
     *
     * @param luminance L, cd/m2, taken as black below black and, for PQ, as white above white
     * @return signal; the least one where several give the same light
     */
    public final double signal(double luminance) {
        return inverseChannel(inverseGreyLight(luminance));
    }

    /**
     * Light of a colour.
     *
     * @param red signal
     * @param green signal
     * @param blue signal
     * @return light of red, green, blue, cd/m2
     */
    public final double[] light(double red, double green, double blue) {
        double[] rgb = {channel(red), channel(green), channel(blue)};
        toDisplay(rgb);
        return rgb;
    }

    /**
     * Signals of a colour: the inverse of {@link #light} within the display's range.
     *
     * @param red light, cd/m2
     * @param green light, cd/m2
     * @param blue light, cd/m2
     * @return signals of red, green, blue
     */
    public final double[] signals(double red, double green, double blue) {
        double[] rgb = {red, green, blue};
        fromDisplay(rgb);
        for (int i = 0; i < rgb.length; i++) {
            rgb[i] = inverseChannel(rgb[i]);
        }
        return rgb;
    }

    /** The part that each channel goes through alone. */
    abstract double channel(double signal);

    abstract double inverseChannel(double channel);

    /** The part that joins the channels, in place; none for most. */
    void toDisplay(double[] channels) {}

    void fromDisplay(double[] light) {}

    /** {@link #toDisplay} for three equal channels. */
    double greyLight(double channel) {
        return channel;
    }

    double inverseGreyLight(double light) {
        return light;
    }
}
