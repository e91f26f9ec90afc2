package panelbook.wire;

import java.util.List;

/**
 * A whole facility by names, to be entered at once and exported to the same.
 *
 * What the book names is added or changed to what it says; what it does not name stays. Displays move to the room
 * that the book puts them in. A second entry of the same book changes nothing.
 */
public record FacilityBook(
        String name,
        String timeZone,
        List<ToleranceSetEntry> toleranceSets,
        List<TargetEntry> targets,
        List<InstrumentEntry> instruments,
        List<RoomEntry> rooms) {}
