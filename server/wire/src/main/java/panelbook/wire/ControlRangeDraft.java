package panelbook.wire;

/** States how far a control of a display goes, in clicks from its calibrated setting; the latest statement holds. */
public record ControlRangeDraft(String control, String level, int least, int most) {}
