package panelbook.wire;

/**
 * Something that must be true before a match, as it was at the opening.
 *
 * @param explanation in words: what was found, and what to do when it does not hold
 */
public record Condition(Requirement requirement, Holds holds, String explanation) {}
