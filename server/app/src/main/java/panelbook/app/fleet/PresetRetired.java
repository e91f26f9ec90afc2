package panelbook.app.fleet;

import java.time.Instant;
import java.util.UUID;

/** A preset was taken out of use, by itself or with its display. Published in the transaction of the change. */
public record PresetRetired(UUID presetId, Instant at) {}
