package panelbook.app.planning;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Which visits are asked for; null asks for all.
 *
 * @param from those that end after it
 * @param until those that start before it
 * @param states their words
 */
record VisitFilter(
        @Nullable UUID room,
        @Nullable UUID facility,
        @Nullable UUID calibrator,
        @Nullable Instant from,
        @Nullable Instant until,
        String @Nullable [] states) {}
