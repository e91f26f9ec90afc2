package panelbook.wire;

/**
 * A number of days of a calibrator that was tried.
 *
 * @param lateRooms rooms that more days would keep, or visit at all
 */
public record TriedDays(int days, int lateRooms) {}
