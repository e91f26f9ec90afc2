package panelbook.app.assessment;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Metric;
import panelbook.wire.ReadingRef;

/**
 * A figure that a rule judges.
 *
 * @param value in the metric's unit
 * @param uncertainty standard uncertainty, in the metric's unit; null where there is none to state
 * @param explanation for people, one or two sentences
 * @param readings what it rests on
 * @param matchId the match whose agreed offset it uses, or null
 * @param blame who moved, for figures of the drift from the hero
 * @param unknown whether there is nothing to judge by, so that no decision can be made
 */
record Figure(
        Metric metric,
        double value,
        @Nullable Double uncertainty,
        String explanation,
        List<ReadingRef> readings,
        @Nullable UUID matchId,
        @Nullable Blame blame,
        boolean unknown) {

    static Figure of(
            Metric metric, double value, @Nullable Double uncertainty, String explanation, List<ReadingRef> readings) {
        return new Figure(metric, value, uncertainty, explanation, readings, null, null, false);
    }

    static Figure unknown(Metric metric, String explanation) {
        return new Figure(metric, 0, null, explanation, List.of(), null, null, true);
    }
}
