package panelbook.wire;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A preset whose runs a correction reads differently.
 *
 * @param preset path
 * @param latest of the run that shows how it stands; null when that run is not read differently or holds no white
 * @param baseline of the run of its baseline; null when that run is not read differently or holds no white
 * @param findings those whose decision changes, or that come or go
 */
public record ReReadPreset(
        UUID presetId,
        String preset,
        @Nullable WhiteMove latest,
        @Nullable WhiteMove baseline,
        List<FindingChange> findings) {}
