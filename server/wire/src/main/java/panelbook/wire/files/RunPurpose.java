package panelbook.wire.files;

import org.jspecify.annotations.Nullable;

/** Why a run was taken. */
public enum RunPurpose {
    /** Before anything was touched. */
    AS_FOUND("as-found"),
    /** After calibration: a candidate for the baseline. */
    AS_LEFT("as-left"),
    /** Between calibrations, to see whether the display has drifted. */
    CHECK("check"),
    /** During a match, before or after a trim step. */
    MATCH("match");

    private final String text;

    RunPurpose(String text) {
        this.text = text;
    }

    /** The word as it stands in files. */
    public String text() {
        return text;
    }

    /** The purpose of that word, or null when there is none; capitals, blanks and underscores are forgiven. */
    public static @Nullable RunPurpose find(String word) {
        String plain = Names.plain(word);
        for (RunPurpose purpose : values()) {
            if (purpose.text.equals(plain)) {
                return purpose;
            }
        }
        return null;
    }

    @Override
    public String toString() {
        return text;
    }
}
