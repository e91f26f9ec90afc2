package panelbook.wire;

/**
 * A person settles a quirk.
 *
 * @param word what became of it
 */
public record SettlementDraft(String word) {}
