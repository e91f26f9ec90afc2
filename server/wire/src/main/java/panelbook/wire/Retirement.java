package panelbook.wire;

import org.jspecify.annotations.Nullable;

/** Something is taken out of use; its record stays. */
public record Retirement(@Nullable String reason) {}
