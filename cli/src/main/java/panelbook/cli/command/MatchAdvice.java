package panelbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Advice;
import panelbook.wire.AdviceMoment;
import panelbook.wire.Look;
import panelbook.wire.Place;
import panelbook.wire.StepDraft;

/** Advice while the service is away: from the table as last fetched. What rests on readings is the service's alone. */
final class MatchAdvice {

    private MatchAdvice() {}

    /**
     * Advice for a step, what fits closest first.
     *
     * @param standsAt how the control of a trim stands after it, in clicks from its calibrated setting
     */
    static List<String> of(List<Advice> table, StepDraft step, int standsAt) {
        return switch (step.kind()) {
            case OBSERVATION -> {
                var seen = step.observation();
                yield seen == null ? List.of() : texts(table, AdviceMoment.OBSERVATION, seen.look(), seen.place());
            }
            case TRIM -> ofTrim(table, step, standsAt);
            case VERDICT -> texts(table, AdviceMoment.VERDICT, null, null);
            default -> List.of();
        };
    }

    private static List<String> ofTrim(List<Advice> table, StepDraft step, int standsAt) {
        var texts = new ArrayList<String>();
        var trim = step.trim();
        if (trim != null && trim.control().startsWith("gain") && standsAt > 0) {
            texts.addAll(texts(table, AdviceMoment.GAIN_RAISED, null, null));
        }
        texts.addAll(texts(table, AdviceMoment.TRIM, null, null));
        return texts;
    }

    private static List<String> texts(
            List<Advice> table, AdviceMoment moment, @Nullable Look look, @Nullable Place place) {
        return table.stream()
                .filter(a -> a.moment() == moment && a.retiredAt() == null)
                .filter(a -> a.look() == null || a.look() == look)
                .filter(a -> a.place() == null || a.place() == place)
                .sorted(java.util.Comparator.comparingInt(MatchAdvice::generality))
                .map(Advice::text)
                .toList();
    }

    private static int generality(Advice advice) {
        return (advice.look() == null ? 1 : 0) + (advice.place() == null ? 1 : 0);
    }
}
