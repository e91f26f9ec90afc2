package panelbook.wire;

import org.jspecify.annotations.Nullable;

/** A visit that will not be made. */
public record VisitDrop(@Nullable String reason) {}
