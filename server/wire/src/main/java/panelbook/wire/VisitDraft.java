package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A visit that a person adds: confirmed and pinned.
 *
 * @param startsAt of the work; the displays warm up before
 * @param presetIds to be recalibrated, with the matches that this puts in question; empty for what is due by then
 * @param minutes of the work; null for the sum of what it usually takes
 * @param insist whether to add it although a booking, an absence, a holiday, working hours, skills, travel or a proposed visit
 *     speaks against it; needs a reason
 */
public record VisitDraft(
        UUID id,
        UUID roomId,
        UUID calibratorId,
        Instant startsAt,
        List<UUID> presetIds,
        @Nullable Integer minutes,
        @Nullable String reason,
        boolean insist) {}
