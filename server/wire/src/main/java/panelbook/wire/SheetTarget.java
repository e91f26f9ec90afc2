package panelbook.wire;

import java.util.List;

/**
 * A target on a room sheet, with the presets that aim at it.
 *
 * @param aim the target in words
 * @param warmUpMinutes that its tolerance set asks for before a run counts
 * @param presets the hero first, then its followers by display and preset
 */
public record SheetTarget(Target target, String aim, int warmUpMinutes, List<SheetPreset> presets) {}
