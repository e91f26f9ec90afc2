package panelbook.app.planning.plan;

import java.util.List;
import java.util.Set;
import java.util.UUID;

/**
 * Who makes visits.
 *
 * @param homeFacility index of the facility where each working span starts and ends
 * @param skills panel technologies; none means all
 * @param works working spans, in order, apart from each other; travel, there and back, lies within them
 */
public record PlanCalibrator(UUID id, int homeFacility, Set<String> skills, List<Span> works) {}
