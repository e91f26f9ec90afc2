package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A finding that needs a person, from opening to closing.
 *
 * @param subject path of the preset or room, or name of the instrument
 * @param openedAt when it was opened; when its cause came back, when it was opened again last
 * @param findings that hold it open, or held it last; only when one alert is asked for
 * @param history only when one alert is asked for
 * @param heldBy the alert that explains this one, or did when this one closed; null when it speaks for itself
 * @param holds open alerts that this one explains
 * @param version ETag
 */
public record Alert(
        UUID id,
        AlertCause cause,
        AlertState state,
        String headline,
        String subject,
        UUID subjectId,
        @Nullable UUID facilityId,
        @Nullable UUID roomId,
        @Nullable String room,
        Instant openedAt,
        Instant updatedAt,
        @Nullable Instant acknowledgedAt,
        @Nullable Instant closedAt,
        List<AffectedFollower> followers,
        List<Finding> findings,
        List<AlertEvent> history,
        @Nullable UUID heldBy,
        List<HeldAlert> holds,
        long version) {}
