package panelbook.wire;

import java.util.UUID;

/** Points at a reading that a finding rests on. */
public record ReadingRef(UUID runId, int red, int green, int blue) {}
