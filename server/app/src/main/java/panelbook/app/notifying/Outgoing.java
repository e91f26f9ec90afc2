package panelbook.app.notifying;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.ChannelKind;

/**
 * A message ready to be sent, and where to.
 *
 * @param addresses of mail that it did not reach yet
 * @param heading subject of a mail
 * @param inReplyTo message that a mail belongs to
 * @param attempts so far
 * @param secret that signs a webhook
 */
record Outgoing(
        UUID id,
        ChannelKind kind,
        List<String> addresses,
        @Nullable String url,
        byte @Nullable [] secret,
        String heading,
        String body,
        @Nullable String inReplyTo,
        Instant createdAt,
        int attempts) {}
