package panelbook.wire;

import java.time.Instant;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * One change and who made it.
 *
 * @param action add, change or delete
 */
public record AuditEntry(
        long sequence,
        Instant at,
        String actor,
        String action,
        String subjectKind,
        String subjectId,
        @Nullable Map<String, Object> before,
        @Nullable Map<String, Object> after) {}
