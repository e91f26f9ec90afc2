package panelbook.wire;

import java.util.List;

/** Values of panel-hours counters to enter, all or none. */
public record PanelHoursList(List<PanelHoursEntry> values) {}
