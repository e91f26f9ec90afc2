package panelbook.wire;

/** Electro-optical transfer function of a target. */
public enum EotfKind {
    /** SMPTE ST 2084. */
    PQ,
    /** ITU-R BT.2100, system gamma of the peak. */
    HLG,
    /** ITU-R BT.1886. */
    BT1886,
    /** A pure power of the signal. */
    POWER;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
