package panelbook.wire;

import java.util.List;

/**
 * The answer to a step.
 *
 * @param advice for this moment, in the order to be read
 * @param settings how the controls stand now
 * @param guards those that refuse, or cannot decide, as things stand
 */
public record StepAnswer(MatchStep step, List<String> advice, List<Trim> settings, List<GuardReport> guards) {}
