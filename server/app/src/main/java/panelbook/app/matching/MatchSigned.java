package panelbook.app.matching;

import java.util.UUID;

/**
 * A match was signed off, in the transaction under way.
 *
 * @param by holder of the token
 */
public record MatchSigned(UUID matchId, UUID followerPresetId, UUID heroPresetId, String by) {}
