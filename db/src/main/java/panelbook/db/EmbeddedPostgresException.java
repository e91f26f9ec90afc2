package panelbook.db;

import org.jspecify.annotations.Nullable;

/** The embedded PostgreSQL cannot be started; the message says which folder is concerned and what to do. */
public final class EmbeddedPostgresException extends RuntimeException {
    private static final long serialVersionUID = 1L;

    EmbeddedPostgresException(String message) {
        super(message);
    }

    EmbeddedPostgresException(String message, @Nullable Throwable cause) {
        super(message, cause);
    }
}
