package panelbook.wire;

/** What the record says of a document. */
public enum ProofVerdict {
    /** Handed out by this service, unaltered, and the record still says the same of that moment. */
    GENUINE,
    /** Handed out by this service and unaltered, but the record says something else of that moment. */
    RECORD_DIFFERS,
    /** It carries the digest of a document handed out here, and is not the file that was. */
    ALTERED,
    /** Nothing like it was handed out here. */
    UNKNOWN;

    private final String word = Word.of(this);

    /** The word used on the wire and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
