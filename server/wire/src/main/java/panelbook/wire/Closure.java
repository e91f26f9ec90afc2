package panelbook.wire;

/**
 * A person closes an alert.
 *
 * @param reason why it is closed without a run that shows it gone
 */
public record Closure(String reason) {}
