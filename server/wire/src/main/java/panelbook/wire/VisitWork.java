package panelbook.wire;

import java.util.UUID;

/**
 * A piece of work of a visit.
 *
 * @param preset facility/room/display/preset
 * @param hero whether it is the hero of its room for its target
 * @param why in words
 */
public record VisitWork(UUID presetId, String preset, boolean hero, Work work, int minutes, String why) {}
