package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A value of a display's panel-hours counter, one of many.
 *
 * @param hours counter, h
 */
public record PanelHoursEntry(
        UUID displayId, Instant at, double hours, @Nullable String note) {}
