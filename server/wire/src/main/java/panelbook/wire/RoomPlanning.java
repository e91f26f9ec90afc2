package panelbook.wire;

import java.util.UUID;

/**
 * How a plan weighs a room.
 *
 * @param room facility/room
 * @param importance 1 to 10: a day beyond tolerance there counts so many times
 * @param version ETag; 0 where nobody said anything, which weighs 1
 */
public record RoomPlanning(UUID roomId, String room, int importance, long version) {}
