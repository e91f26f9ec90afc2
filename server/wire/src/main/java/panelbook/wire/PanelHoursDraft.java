package panelbook.wire;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A panel-hours counter read by a person.
 *
 * @param hours counter, h
 * @param at now when null
 */
public record PanelHoursDraft(
        double hours, @Nullable Instant at, @Nullable String note) {}
