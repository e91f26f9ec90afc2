package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a guard says of a control that was turned.
 *
 * @param step number of the reading that shows it
 * @param before the figure before the trim, in {@code unit}
 * @param after the figure after it
 * @param readings the two readings
 * @param reason why a person lets it stand; null unless overridden
 */
public record GuardReport(
        String control,
        String level,
        int step,
        GuardDecision decision,
        String explanation,
        double before,
        double after,
        String unit,
        List<ReadingRef> readings,
        @Nullable String reason) {}
