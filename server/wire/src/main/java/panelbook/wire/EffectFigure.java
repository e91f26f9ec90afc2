package panelbook.wire;

/** What is followed of a grey when a control is clicked. */
public enum EffectFigure {
    /** u′ of CIE 1976. */
    U,
    /** v′ of CIE 1976. */
    V,
    /** Natural logarithm of the luminance in cd/m². */
    LN_LUMINANCE;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
