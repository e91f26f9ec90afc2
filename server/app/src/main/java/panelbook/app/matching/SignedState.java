package panelbook.app.matching;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * How a preset stood when it was signed off as a follower.
 *
 * @param operator whom it was matched for
 * @param runId closing run of the follower at sign-off; null when it was signed without, so that nothing tells how it stood
 */
public record SignedState(String operator, @Nullable UUID runId, Instant signedAt) {}
