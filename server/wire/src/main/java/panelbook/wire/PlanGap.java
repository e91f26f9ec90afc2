package panelbook.wire;

import java.util.UUID;

/**
 * A room that a plan has no visit to, although something is due there.
 *
 * @param room facility/room
 * @param presets that are due within the plan
 */
public record PlanGap(UUID roomId, String room, int presets, PlanObstacle obstacle, String explanation) {}
