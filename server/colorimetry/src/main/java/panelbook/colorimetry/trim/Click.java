package panelbook.colorimetry.trim;

/**
 * What is asked of a click.
 *
 * @param control that is turned
 * @param level where it is looked at
 * @param figure what is looked at
 */
public record Click(Control control, GreyLevel level, Figure figure) {}
