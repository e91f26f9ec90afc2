package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** A display in a facility book. */
public record DisplayEntry(
        String name,
        String model,
        String panelTechnology,
        @Nullable String serialNumber,
        @Nullable String notes,
        List<PresetEntry> presets) {}
