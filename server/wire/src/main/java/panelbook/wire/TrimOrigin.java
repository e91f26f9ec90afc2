package panelbook.wire;

import java.time.Instant;
import java.util.UUID;

/**
 * How trims in force came about.
 *
 * @param matchId the sign-off that left them
 * @param storyId the match that led to it
 * @param openedAt when that was opened
 * @param steps all there were
 * @param undone steps that were taken back
 * @param readings runs taken meanwhile
 * @param better verdicts of this kind
 * @param worse likewise
 * @param same likewise
 * @param overrides trims that a person let stand against a guard
 */
public record TrimOrigin(
        UUID matchId,
        UUID storyId,
        Instant openedAt,
        int steps,
        int undone,
        int readings,
        int better,
        int worse,
        int same,
        int overrides) {}
