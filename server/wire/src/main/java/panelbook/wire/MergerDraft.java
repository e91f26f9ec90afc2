package panelbook.wire;

import java.util.List;
import java.util.UUID;

/**
 * A display was entered twice.
 *
 * @param into the display to keep
 * @param presets which preset of the one is which of the other, where their names differ
 * @param reason how it is known that they are one
 */
public record MergerDraft(UUID into, List<PresetPair> presets, String reason) {

    /**
     * A preset of either display.
     *
     * @param from preset of the duplicate
     * @param to preset of the display to keep
     */
    public record PresetPair(UUID from, UUID to) {}
}
