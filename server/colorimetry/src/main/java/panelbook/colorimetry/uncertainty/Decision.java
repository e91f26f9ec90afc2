package panelbook.colorimetry.uncertainty;

/** What may be said of a value against its limits. */
public enum Decision {
    /** Inside, surely enough. */
    WITHIN,
    /** Over or under, but inside the uncertainty: measure again. */
    UNDECIDED,
    /** Outside, surely enough. */
    BEYOND
}
