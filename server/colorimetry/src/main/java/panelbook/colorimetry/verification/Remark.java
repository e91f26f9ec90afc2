package panelbook.colorimetry.verification;

/** Why a verification lacks a figure, or what it used instead. */
public enum Remark {
    /** No white patch: the target's peak luminance was used; no figure of the white, no contrast. */
    WHITE_NOT_MEASURED,
    /** No black patch: the target's black luminance was used; no contrast. */
    BLACK_NOT_MEASURED,
    /** Black reads 0 cd/m2: darker than the instrument sees, so that there is no contrast. */
    BLACK_READS_ZERO,
    /** White is not brighter than black: both of the target's luminances were used. Is the meter on the display? */
    WHITE_NOT_ABOVE_BLACK,
    /** A patch of one primary alone is missing or dark: no gamut coverage. */
    PRIMARIES_NOT_MEASURED,
    /** No grey at or above the stated level: no greyscale tracking. */
    GREYS_NOT_MEASURED
}
