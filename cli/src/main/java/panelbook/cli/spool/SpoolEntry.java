package panelbook.cli.spool;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A run in the spool.
 *
 * @param name its name in the spool, which grows with time
 * @param service address of the service it is for
 * @param spooledAt when it was put there
 * @param run null when the file can no longer be read
 * @param refusal why it was set aside; null while it waits
 */
public record SpoolEntry(
        String name,
        String service,
        Instant spooledAt,
        @Nullable PendingRun run,
        @Nullable String refusal) {}
