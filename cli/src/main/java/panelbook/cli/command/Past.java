package panelbook.cli.command;

import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Service;

/** What commands share that also answer as the book stood at an earlier moment. */
final class Past {

    static final String OPTION = "--as-of";
    static final String TIME = "TIME";
    static final String WORDS =
            "As the book stood then: a time such as 2026-11-24T18:00:00Z, or a day for its end in UTC (default: now).";

    private Past() {}

    /** The path, asked as of a moment; as it is without one. */
    static String of(String path, @Nullable String asOf) {
        return asOf == null
                ? path
                : Service.with(path, "as-of", Words.timeOrEndOfDay(OPTION, asOf).toString());
    }
}
