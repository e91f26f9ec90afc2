package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Whether a channel was told of an event of an alert, and why or why not.
 *
 * @param channel name
 * @param sequence of the event
 * @param why for people
 * @param messageId the message it is in
 * @param nextAttemptAt when it is tried next; null when it arrived or is not to be sent
 * @param deliveredAt when the receiver took it
 * @param givenUpAt when it was given up
 */
public record AlertNotification(
        UUID id,
        UUID channelId,
        String channel,
        long sequence,
        AlertEventKind kind,
        NotificationState state,
        String why,
        Instant createdAt,
        @Nullable UUID messageId,
        @Nullable Instant nextAttemptAt,
        @Nullable Instant deliveredAt,
        @Nullable Instant givenUpAt) {}
