package panelbook.wire;

/** Whether plans leave a visit where it is. */
public record VisitPin(boolean pinned) {}
