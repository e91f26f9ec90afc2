package panelbook.wire;

/** The charts that there are of a preset. */
public enum DrawingName {
    /** Peak luminance over panel hours, with the tolerance of its own drift and the forecast. */
    PEAK_LUMINANCE,
    /** Distance of white from where it was left over panel hours, with its limit and the forecast. */
    WHITE_DRIFT,
    /** White in the CIE 1976 u′v′ diagram over time, beside what it is to keep to. */
    WHITE,
    /** ΔE ITP of each grey of the latest run that has any. */
    GREY_DELTA_E,
    /** Luminance error of each grey of that run. */
    GREY_LUMINANCE,
    /** Luminance of the greys of that run over the signal, beside what the target asks for. */
    EOTF,
    /** The triangle of the primaries of the latest run that has them, beside the target's, in u′v′. */
    GAMUT,
    /** White over black, over time. */
    CONTRAST,
    /** What is left of white's difference to the hero once the agreed offset is taken off, over time, by operator. */
    MATCH_WHITE,
    /** The same of peak luminance. */
    MATCH_LUMINANCE;

    private final String word = Word.of(this);

    /** The word used on the wire and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
