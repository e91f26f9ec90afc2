package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A step as it stands in the story of a match. The parts are those of {@link StepDraft}.
 *
 * @param ofHero for a reading: whether it is of the hero rather than the follower; null for other kinds, and when the run was
 *     found to be of neither
 * @param settings how the controls stand after it, from their calibrated settings; those at it are left out
 * @param undone whether a later return went back before it, and none led to it again
 * @param guards what the guards said of the trims that this reading shows; empty for other kinds
 */
public record MatchStep(
        UUID id,
        int number,
        StepKind kind,
        @Nullable Observation observation,
        @Nullable Trim trim,
        @Nullable OperatorVerdict verdict,
        @Nullable UUID runId,
        @Nullable Boolean ofHero,
        @Nullable Integer returnTo,
        @Nullable String control,
        @Nullable String level,
        @Nullable String note,
        List<Trim> settings,
        boolean undone,
        List<GuardReport> guards,
        Instant at,
        String recordedBy) {}
