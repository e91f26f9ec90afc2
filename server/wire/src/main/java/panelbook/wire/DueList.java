package panelbook.wire;

import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What is due and what will be.
 *
 * @param at when this was worked out
 * @param until last day that is looked at, in the time zone of each room; null for no end, which also lists presets that nothing makes due
 * @param presets earliest first
 * @param instruments meters used on these presets within a year, earliest first
 */
public record DueList(
        Instant at, @Nullable LocalDate until, List<DuePreset> presets, List<DueInstrument> instruments) {}
