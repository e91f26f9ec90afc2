package panelbook.wire;

/**
 * How far a control stands from its calibrated setting.
 *
 * @param control e.g. gain.red, bias.blue, saturation, black-level
 * @param level the level or slot of the menu it applies to; "all" when it has none
 * @param clicks from the calibrated setting, in the display's own clicks
 */
public record Trim(String control, String level, int clicks) {}
