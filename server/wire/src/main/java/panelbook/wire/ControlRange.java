package panelbook.wire;

import java.time.Instant;

/**
 * How far a control of a display goes.
 *
 * @param least lowest setting, in clicks from the calibrated one
 * @param most highest setting
 */
public record ControlRange(String control, String level, int least, int most, Instant recordedAt, String recordedBy) {}
