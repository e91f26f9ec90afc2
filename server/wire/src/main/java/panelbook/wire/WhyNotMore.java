package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * One thing that stands in the way of a smaller rest.
 *
 * @param control which one, where the reason is one control's
 * @param explanation in words
 */
public record WhyNotMore(NotMore reason, @Nullable String control, String explanation) {}
