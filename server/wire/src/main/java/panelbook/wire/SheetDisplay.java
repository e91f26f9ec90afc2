package panelbook.wire;

import java.util.List;

/**
 * A display on a room sheet.
 *
 * @param quirks open ones, newest first
 * @param panelHoursQuestions open ones, oldest first
 */
public record SheetDisplay(Display display, List<Quirk> quirks, List<PanelHoursQuestion> panelHoursQuestions) {}
