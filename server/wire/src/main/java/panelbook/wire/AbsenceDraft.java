package panelbook.wire;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Days on which a calibrator is away.
 *
 * @param toDay the last day away
 */
public record AbsenceDraft(
        UUID id,
        LocalDate fromDay,
        LocalDate toDay,
        @Nullable String reason) {}
