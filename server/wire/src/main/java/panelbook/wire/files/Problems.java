package panelbook.wire.files;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Collects what is wrong with one file: the first problems in full, of the rest the number. */
final class Problems {

    private static final int LONGEST_EXCERPT = 60;

    private final String file;
    private final int limit;
    private final List<RunFileProblem> list = new ArrayList<>();
    private final List<String> remarks = new ArrayList<>();
    private long total;

    Problems(String file, int limit) {
        this.file = file;
        this.limit = limit;
    }

    /** A problem with the file as a whole or with a line. */
    void add(RunFileReason reason, long line, String message) {
        add(reason, line, null, null, message);
    }

    /** A problem with a field. */
    void add(RunFileReason reason, long line, @Nullable String field, @Nullable String value, String message) {
        total++;
        if (list.size() < limit) {
            String name = field == null ? null : excerpt(field);
            list.add(new RunFileProblem(reason, file, line, name, value == null ? null : excerpt(value), message));
        }
    }

    /** Something that a person should know and that does not stand in the way. */
    void remark(String text) {
        remarks.add(file + ": " + text);
    }

    boolean none() {
        return total == 0;
    }

    RunFileResult.Refused refused() {
        return new RunFileResult.Refused(list, total);
    }

    List<String> remarks() {
        return remarks;
    }

    /** The text, shortened when long, fit to stand in a message. */
    static String excerpt(String text) {
        return text.length() <= LONGEST_EXCERPT ? text : text.substring(0, LONGEST_EXCERPT) + "…";
    }
}
