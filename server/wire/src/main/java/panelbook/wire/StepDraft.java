package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A step of a match. Which parts belong to which kind: observation: {@code observation}; trim: {@code trim}, its clicks the
 * change; verdict: {@code verdict}; reading: {@code runId}; return: {@code returnTo}; override: {@code control}, {@code level}
 * and {@code note}, the reason; note: {@code note}. A note may go with any of them; other parts are null.
 *
 * @param id made by the client, so that a repeat is the same step
 * @param number from 1, without gaps
 * @param runId a run on the follower or on the hero, uploaded before
 * @param returnTo number of an earlier step, 0 for how the match began
 * @param at when it was made
 */
public record StepDraft(
        UUID id,
        int number,
        StepKind kind,
        @Nullable Observation observation,
        @Nullable Trim trim,
        @Nullable OperatorVerdict verdict,
        @Nullable UUID runId,
        @Nullable Integer returnTo,
        @Nullable String control,
        @Nullable String level,
        @Nullable String note,
        Instant at) {}
