package panelbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Advice;
import panelbook.wire.AdviceMoment;
import panelbook.wire.Observation;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.StepDraft;
import panelbook.wire.Trim;

/**
 * Advice while the service is away: from the table as last fetched, by the same choice that the service makes. What rests on
 * readings is the service's alone.
 */
final class MatchAdvice {

    private MatchAdvice() {}

    /**
     * Advice for a step.
     *
     * @param standsAt how the control of a trim stands after it, in clicks from its calibrated setting
     */
    static List<String> of(List<Advice> table, StepDraft step, int standsAt) {
        return switch (step.kind()) {
            case OBSERVATION -> step.observation() == null ? List.of() : seen(table, step.observation());
            case TRIM ->
                isRaisedGain(step.trim(), standsAt)
                        ? at(table, AdviceMoment.GAIN_RAISED, AdviceMoment.TRIM)
                        : at(table, AdviceMoment.TRIM);
            case VERDICT ->
                step.verdict() == OperatorVerdict.BETTER
                        ? at(table, AdviceMoment.VERDICT, AdviceMoment.SIGN_OFF)
                        : at(table, AdviceMoment.VERDICT);
            case READING, RETURN, OVERRIDE, NOTE -> List.of();
        };
    }

    private static boolean isRaisedGain(@Nullable Trim trim, int standsAt) {
        return trim != null && trim.control().startsWith("gain") && trim.clicks() > 0 && standsAt > 0;
    }

    private static List<String> at(List<Advice> table, AdviceMoment... moments) {
        var texts = new ArrayList<String>();
        for (var moment : moments) {
            inUse(table, moment).forEach(advice -> texts.add(advice.text()));
        }
        return texts;
    }

    // what fits look and place, else the place, else the look, else anything
    private static List<String> seen(List<Advice> table, Observation seen) {
        var lines = inUse(table, AdviceMoment.OBSERVATION).stream()
                .filter(a -> a.look() == null || a.look() == seen.look())
                .filter(a -> a.place() == null || a.place() == seen.place())
                .toList();
        var best = lines.stream().mapToInt(MatchAdvice::rank).max().orElse(0);
        return lines.stream()
                .filter(advice -> rank(advice) == best)
                .map(MatchAdvice::withControl)
                .toList();
    }

    private static List<Advice> inUse(List<Advice> table, AdviceMoment moment) {
        return table.stream()
                .filter(a -> a.moment() == moment && a.retiredAt() == null)
                .toList();
    }

    private static int rank(Advice advice) {
        return (advice.place() == null ? 0 : 2) + (advice.look() == null ? 0 : 1);
    }

    private static String withControl(Advice advice) {
        return advice.firstControl() == null
                ? advice.text()
                : advice.text() + " First control: " + advice.firstControl() + ".";
    }
}
