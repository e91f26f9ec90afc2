package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A display to add or edit.
 *
 * @param roomId room it is put into when added; ignored by an edit (move it instead)
 */
public record DisplayDraft(
        UUID id,
        UUID facilityId,
        @Nullable UUID roomId,
        String name,
        String model,
        String panelTechnology,
        @Nullable String serialNumber,
        @Nullable String notes) {}
