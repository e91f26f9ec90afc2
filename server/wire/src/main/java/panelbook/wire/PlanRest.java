package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A preset that a plan leaves beyond tolerance.
 *
 * @param preset facility/room/display/preset
 * @param dueAt from when on
 * @param reason the rule that says so first
 * @param visitAt its visit, after that; null when it has none
 * @param beyondDays expected days beyond tolerance within the plan, not weighted
 * @param why it is left, in words
 */
public record PlanRest(
        UUID presetId,
        String preset,
        Instant dueAt,
        DueReason reason,
        @Nullable Instant visitAt,
        double beyondDays,
        String why) {}
