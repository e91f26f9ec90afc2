package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * A channel just added.
 *
 * @param secret of a webhook, for its receiver; shown this once. Null for mail, and when the draft had been added before
 */
public record NewChannel(Channel channel, @Nullable String secret) {}
