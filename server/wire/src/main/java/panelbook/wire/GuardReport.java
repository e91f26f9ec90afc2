package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a guard says of a control that was turned.
 *
 * @param step number of the reading that shows it
 * @param before the figure before the trim, in {@code unit}: of a gain the rise of its channel over the top of the ramp, of the
 *     black level black as calibrated; null when there is none to tell
 * @param after the figure after it; null likewise
 * @param readings the two readings; empty when there are none to name
 * @param corrections of the meters that those runs are read with, by name, place and version
 * @param reason why a person lets it stand; null unless overridden
 */
public record GuardReport(
        String control,
        String level,
        int step,
        GuardDecision decision,
        String explanation,
        @Nullable Double before,
        @Nullable Double after,
        String unit,
        List<ReadingRef> readings,
        List<String> corrections,
        @Nullable String reason) {}
