package panelbook.wire;

import java.util.UUID;

/**
 * A preset to add or edit.
 *
 * @param targetId cannot be edited: a preset for another target is another preset
 */
public record PresetDraft(UUID id, UUID displayId, String name, UUID targetId) {}
