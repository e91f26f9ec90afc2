package panelbook.wire;

/** What the holder of a token may do. */
public enum Role {
    /** May do everything, tokens included. */
    ENGINEER,
    /** Uploads runs, signs matches off, declares baselines, acknowledges and closes alerts, enters panel hours. */
    CALIBRATOR,
    /** Reads. */
    MANAGER,
    /** Uploads runs and reads what an upload needs: presets, targets and instruments. */
    PROBE;

    private final String word = Word.of(this);

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
