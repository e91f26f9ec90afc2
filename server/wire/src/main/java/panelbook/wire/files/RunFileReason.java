package panelbook.wire.files;

/** Every reason for which a run file can be refused. */
public enum RunFileReason {
    /** The file holds nothing, or blank lines only. */
    EMPTY_FILE,
    /** A NUL or another control character, or UTF-16: not a text file that can be read on. */
    NOT_TEXT,
    /** Bytes that are not UTF-8. */
    NOT_UTF8,
    /** A line longer than any sensible one. */
    LINE_TOO_LONG,
    /** More bytes than the reader is willing to read. */
    FILE_TOO_LARGE,
    /** Neither CSV with a header row nor the text form of ISO 28178. */
    FORMAT_UNKNOWN,
    /** A part of the file is absent or stands in the wrong place: a header row, a keyword that opens or closes. */
    STRUCTURE,
    /** A column or field that the reader does not know. */
    COLUMN_UNKNOWN,
    /** A column or field that a run needs is not there. */
    COLUMN_MISSING,
    /** A column or field stands there twice. */
    COLUMN_REPEATED,
    /** The unit of the tristimulus values is not said. */
    UNIT_MISSING,
    /** The tristimulus values are in another unit than cd/m², or relative. */
    UNIT_WRONG,
    /** A metadata key or keyword that the reader does not know. */
    METADATA_UNKNOWN,
    /** A metadata key or keyword stands there twice. */
    METADATA_REPEATED,
    /** A metadata value that cannot be read or is out of range. */
    METADATA_MALFORMED,
    /** A metadata line stands where it has no effect. */
    METADATA_MISPLACED,
    /** A row with fewer or more values than there are columns. */
    FIELD_COUNT,
    /** A quotation mark that is opened and not closed on the line, or text after a closing one. */
    QUOTE_OPEN,
    /** A number with a comma where the decimal point belongs. */
    DECIMAL_COMMA,
    /** Something that is no number where a number belongs. */
    NUMBER_UNREADABLE,
    /** A tristimulus value below zero. */
    TRISTIMULUS_NEGATIVE,
    /** A tristimulus value that is not a number or infinite. */
    TRISTIMULUS_NOT_FINITE,
    /** A code value that is not a whole number. */
    CODE_NOT_WHOLE,
    /** A code value that the target's bit depth and signal range do not allow. */
    CODE_OUT_OF_RANGE,
    /** The same patch twice. */
    PATCH_REPEATED,
    /** The file says how many readings (or fields) it holds, and holds another number. */
    COUNT_DISAGREES,
    /** The end of the file is missing. */
    CUT_SHORT,
    /** More readings than a run may hold. */
    TOO_MANY_READINGS,
    /** A well-formed file without a reading. */
    NO_READINGS
}
