package panelbook.wire;

import java.util.List;
import java.util.UUID;

/**
 * What entering a facility book did.
 *
 * @param notes what was done, in words, a line each
 */
public record BookEntered(UUID facilityId, int added, int changed, int unchanged, List<String> notes) {}
