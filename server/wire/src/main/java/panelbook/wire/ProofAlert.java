package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * An open alert on a proof.
 *
 * @param subject path of the preset or room, or name of the instrument
 * @param heldBy the alert that explains this one; null when it speaks for itself
 */
public record ProofAlert(
        UUID id,
        AlertCause cause,
        AlertState state,
        String headline,
        String subject,
        Instant openedAt,
        @Nullable UUID heldBy) {}
