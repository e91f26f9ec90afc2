package panelbook.wire;

/**
 * A person takes an alert in hand.
 *
 * @param note what is being done about it
 */
public record Acknowledgement(String note) {}
