package panelbook.app;

import java.sql.SQLException;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.diagnostics.AbstractFailureAnalyzer;
import org.springframework.boot.diagnostics.FailureAnalysis;
import panelbook.db.EmbeddedPostgresException;

/** Why the service did not start for want of its database: in a sentence instead of a stack trace. */
final class DatabaseFailures {

    private DatabaseFailures() {}

    /** The embedded server says itself what to do. */
    static final class Embedded extends AbstractFailureAnalyzer<EmbeddedPostgresException> {

        @Override
        protected FailureAnalysis analyze(Throwable root, EmbeddedPostgresException cause) {
            return new FailureAnalysis(
                    String.valueOf(cause.getMessage()),
                    "The folder is panelbook.data-folder. To use an outside PostgreSQL instead, set"
                            + " spring.datasource.url, spring.datasource.username and spring.datasource.password.",
                    cause);
        }
    }

    /** PostgreSQL's class 08 is "no connection", 28 "not let in", 3D "no such database". */
    static final class Outside extends AbstractFailureAnalyzer<SQLException> {

        @Override
        protected @Nullable FailureAnalysis analyze(Throwable root, SQLException cause) {
            var state = String.valueOf(cause.getSQLState());
            if (!state.startsWith("08") && !state.startsWith("28") && !state.startsWith("3D")) {
                return null;
            }
            return new FailureAnalysis(
                    "PostgreSQL cannot be reached: " + cause.getMessage(),
                    "Look at spring.datasource.url, spring.datasource.username and spring.datasource.password. Without"
                            + " a url the service starts its own embedded PostgreSQL.",
                    cause);
        }
    }
}
