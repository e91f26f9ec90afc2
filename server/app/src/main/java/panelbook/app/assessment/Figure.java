package panelbook.app.assessment;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.app.runs.RunMeasured;
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
 * @param corrections of the meters that it rests on, by name
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
        List<String> corrections,
        boolean unknown) {

    static Figure of(
            Metric metric, double value, @Nullable Double uncertainty, String explanation, List<ReadingRef> readings) {
        return new Figure(metric, value, uncertainty, explanation, readings, null, null, List.of(), false);
    }

    static Figure unknown(Metric metric, String explanation) {
        return new Figure(metric, 0, null, explanation, List.of(), null, null, List.of(), true);
    }

    /** Figures with the corrections named that those of the runs were read with which each rests on. */
    static List<Figure> naming(List<Figure> figures, RunMeasured... runs) {
        var names = new HashMap<UUID, String>();
        for (var run : runs) {
            run.correctionName().ifPresent(name -> names.put(run.id(), name));
        }
        return names.isEmpty()
                ? List.copyOf(figures)
                : figures.stream().map(figure -> figure.naming(names)).toList();
    }

    private Figure naming(Map<UUID, String> namesByRun) {
        var named = readings.stream()
                .map(ReadingRef::runId)
                .distinct()
                .map(namesByRun::get)
                .filter(Objects::nonNull)
                .distinct()
                .toList();
        return new Figure(metric, value, uncertainty, explanation, readings, matchId, blame, named, unknown);
    }
}
