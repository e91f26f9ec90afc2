package panelbook.colorimetry.signalpath;

/** Where to look first; {@link DiagnosisText} has the words. Common practice, no published source. */
public enum FirstCheck {
    /** Nothing. */
    NOTHING,
    /** Range that the source or its operating system puts out. */
    OUTPUT_RANGE_OF_SOURCE,
    /** A converter in the feed, and the input range that the display is set to. */
    CONVERTER_OR_INPUT_RANGE_OF_DISPLAY,
    /** The preset that is on, its EOTF, and signalling that switches it. */
    EOTF_OF_PRESET,
    /** A luminance limiter, power saving or tone mapping in the preset. */
    LUMINANCE_LIMITER_OF_PRESET
}
