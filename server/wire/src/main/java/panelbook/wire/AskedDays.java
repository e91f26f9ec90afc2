package panelbook.wire;

import java.util.List;

/**
 * A number of days of a calibrator that was asked about.
 *
 * @param lateRooms rooms, facility/room, that more days would keep, or visit at all
 */
public record AskedDays(int days, List<String> lateRooms) {}
