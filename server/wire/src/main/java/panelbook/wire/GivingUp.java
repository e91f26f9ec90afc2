package panelbook.wire;

/** Closes a match without a sign-off. */
public record GivingUp(String reason) {}
