package panelbook.wire;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A meter in use and how long its certificate holds.
 *
 * @param certifiedUntil last day on which a certificate holds; null when none is on file
 * @param due whether none holds today
 */
public record DueInstrument(
        UUID instrumentId, String instrument, @Nullable LocalDate certifiedUntil, boolean due) {}
