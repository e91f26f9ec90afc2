package panelbook.wire;

import java.util.List;
import java.util.UUID;

/**
 * A calibrator to add or edit.
 *
 * @param name unique; whoever holds a token of this name may confirm and move their own visits
 * @param skills panel technologies that they calibrate; none means all
 * @param week working hours in the time zone of the home facility; travel lies within them
 */
public record CalibratorDraft(
        UUID id, String name, UUID homeFacilityId, List<String> skills, List<WorkingHours> week) {}
