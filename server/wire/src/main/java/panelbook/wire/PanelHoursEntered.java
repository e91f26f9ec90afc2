package panelbook.wire;

import java.util.List;

/**
 * What came of entering panel hours.
 *
 * @param added how many are new
 * @param unchanged how many were there already
 * @param questions open ones on the displays that values were entered for
 */
public record PanelHoursEntered(int added, int unchanged, List<PanelHoursQuestion> questions) {}
