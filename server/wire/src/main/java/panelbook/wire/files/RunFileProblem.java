package panelbook.wire.files;

import org.jspecify.annotations.Nullable;

/**
 * One thing that is wrong with a run file.
 *
 * @param reason kind of the problem
 * @param file name of the file as the caller gave it
 * @param line line, from 1; 0 when the problem is the file's as a whole
 * @param field column, field or metadata key that it concerns, if one
 * @param value the offending text, shortened when long
 * @param message what is wrong and what to do, in one line
 */
public record RunFileProblem(
        RunFileReason reason,
        String file,
        long line,
        @Nullable String field,
        @Nullable String value,
        String message) {

    /** One line for people: {@code check.csv, line 7, Y_cd_m2: …}. */
    public String text() {
        StringBuilder text = new StringBuilder(file);
        if (line > 0) {
            text.append(", line ").append(line);
        }
        if (field != null) {
            text.append(", ").append(field);
        }
        return text.append(": ").append(message).toString();
    }
}
