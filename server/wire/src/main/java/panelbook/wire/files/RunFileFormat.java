package panelbook.wire.files;

/** The formats of run files. A reader tells them apart by content, never by the name of the file. */
public enum RunFileFormat {
    /** Comma-, semicolon- or tab-separated values with a header row; metadata in {@code # key: value} lines above it. */
    CSV,
    /** The text (ASCII) form of ISO 28178, with Panelbook's own metadata in declared keywords. */
    ISO_28178
}
