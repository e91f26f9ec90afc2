package panelbook.app.planning.plan;

import java.util.List;
import java.util.Set;
import java.util.UUID;

/**
 * A room that may be visited once within the horizon.
 *
 * @param facility index of its facility
 * @param skills panel technologies that its visit needs
 * @param warmUpMinutes that the room must be free for before the work starts; nobody need be there
 * @param workMinutes of a visit, hero and followers, above 0
 * @param free when the room is not booked, in order, apart from each other; warm-up and work lie within one of them
 * @param beyondDays what a visit on a day leaves: expected days that its presets stand beyond tolerance within the horizon,
 *     summed, weighted by the room's importance, by day of the problem on which the work starts; never falling; the last,
 *     at index {@code days}, without a visit
 */
public record PlanRoom(
        UUID id,
        int facility,
        Set<String> skills,
        int warmUpMinutes,
        int workMinutes,
        List<Span> free,
        List<Double> beyondDays) {}
