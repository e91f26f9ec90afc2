package panelbook.wire;

import java.util.List;
import java.util.UUID;

/**
 * Trims of a room, by operator.
 *
 * @param inForce by follower and operator
 * @param history replaced ones, newest first
 */
public record RoomTrims(UUID roomId, String room, List<Match> inForce, List<Match> history) {}
