package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Whom alerts are told to, and how. The key that signs a webhook is never shown again after it was made.
 *
 * @param facilityId alerts of this facility only; all when null
 * @param causes alerts on these causes only; all when empty
 * @param escalationsOnly told only of alerts that nobody acknowledged in time
 * @param addresses of mail
 * @param url where a webhook is sent to
 * @param waiting what is still to be told
 * @param lastError of the message that is tried again now; null when nothing failed
 * @param nextAttemptAt when it is tried again
 * @param givenUp messages that were given up
 * @param version ETag
 */
public record Channel(
        UUID id,
        String name,
        ChannelKind kind,
        @Nullable UUID facilityId,
        List<AlertCause> causes,
        boolean escalationsOnly,
        List<String> addresses,
        @Nullable String url,
        @Nullable Instant retiredAt,
        long waiting,
        @Nullable String lastError,
        @Nullable Instant nextAttemptAt,
        long givenUp,
        long version) {}
