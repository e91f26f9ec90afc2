package panelbook.app.matching;

import java.util.UUID;

/**
 * How a preset stood when it was signed off as a follower.
 *
 * @param operator whom it was matched for
 * @param runId closing run of the follower at sign-off
 */
public record SignedState(String operator, UUID runId) {}
