package panelbook.wire;

import java.util.UUID;

/**
 * What came of a message that was sent only to try a channel.
 *
 * @param messageId of the message
 * @param delivered whether the receiver took it
 * @param answer what the receiver said, or what went wrong
 */
public record ChannelTrial(UUID messageId, boolean delivered, String answer) {}
