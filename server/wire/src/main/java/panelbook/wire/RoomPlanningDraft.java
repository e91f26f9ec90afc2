package panelbook.wire;

/**
 * How a plan weighs a room.
 *
 * @param importance 1 to 10: a day beyond tolerance there counts so many times
 */
public record RoomPlanningDraft(int importance) {}
