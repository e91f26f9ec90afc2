package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Opens a match.
 *
 * @param id of the match, made by the client
 * @param operator whom it is made for
 * @param instrumentId meter in hand; null when nothing is to be measured
 * @param followerMinutesSincePowerOn null when nobody said
 * @param heroMinutesSincePowerOn null when nobody said
 * @param lightsAtViewingLevel null when nobody said
 * @param startingTrims how the controls stand now, from their calibrated settings; one not listed stands there
 * @param openedAt now when null
 */
public record OpeningDraft(
        UUID id,
        UUID followerPresetId,
        UUID heroPresetId,
        String operator,
        @Nullable UUID instrumentId,
        @Nullable Integer followerMinutesSincePowerOn,
        @Nullable Integer heroMinutesSincePowerOn,
        @Nullable Boolean lightsAtViewingLevel,
        List<Trim> startingTrims,
        @Nullable Instant openedAt) {}
