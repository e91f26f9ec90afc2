package panelbook.wire;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A display on a proof.
 *
 * @param panelHours latest known then, h
 * @param quirks noted and not settled, newest first
 */
public record ProofDisplay(
        UUID id,
        String name,
        String model,
        String panelTechnology,
        @Nullable String serialNumber,
        @Nullable Double panelHours,
        List<String> quirks) {}
