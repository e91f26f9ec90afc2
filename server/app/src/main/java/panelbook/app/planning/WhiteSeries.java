package panelbook.app.planning;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.Function;
import java.util.function.ToDoubleFunction;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.forecast.Series;
import panelbook.colorimetry.forecast.Series.Segment;
import panelbook.colorimetry.forecast.SeriesPoint;
import panelbook.wire.ForecastPoint;
import panelbook.wire.SegmentStart;

/**
 * The whites of a preset over the hours of its panel.
 *
 * @param state that the preset stands in now; null when there is none
 * @param several whether sign-offs for several operators left it in several states
 * @param reference white that it was left with in that state; null when nobody measured it
 * @param series parted where it must be
 * @param latest what a forecast rests on: readings of that state; null when there are none
 * @param runsWithoutHours runs left out, since no counter value places them in the panel's life
 * @param stepped whether the latest begins after a step
 */
record WhiteSeries(
        @Nullable LeftState state,
        boolean several,
        @Nullable White reference,
        Series<White> series,
        @Nullable Segment<White> latest,
        int runsWithoutHours,
        boolean stepped) {

    private static final String RESETS = " reset";

    /**
     * One white.
     *
     * @param luminance cd/m²
     */
    record White(UUID runId, double luminance, UV1976 uv) {}

    /**
     * Puts whites in order.
     *
     * @param states that the preset was left in, oldest first
     * @param counter of its display
     */
    static WhiteSeries of(PresetLine line, List<RunMeasured> runs, List<LeftState> states, Counter counter) {
        var points = new ArrayList<SeriesPoint<White>>();
        var whites = new ArrayList<White>();
        var without = 0;
        for (var run : runs) {
            var white = white(run);
            if (white.isEmpty()) {
                continue;
            }
            whites.add(white.get());
            var position = counter.of(run.id(), run.run().takenAt(), run.run().panelHours());
            if (position.isEmpty()) {
                without++;
            } else {
                var key = stateAt(states, run).map(LeftState::key).orElse("as delivered");
                points.add(new SeriesPoint<>(
                        position.get().hours(),
                        run.run().takenAt(),
                        white.get(),
                        key,
                        panel(position.get().era())));
            }
        }
        var state = states.isEmpty() ? null : states.get(states.size() - 1);
        var series = Series.split(points);
        var latest = series.latest()
                .filter(segment -> state != null && segment.last().baseline().equals(state.key()))
                .orElse(null);
        return new WhiteSeries(state, several(states), reference(state, whites), series, latest, without, false);
    }

    /**
     * The same, with a forecast that rests on a run and those after it only, since a step lies before it; unchanged when it does
     * not lie among those that the forecast rests on.
     */
    WhiteSeries after(UUID firstRunAfterStep) {
        if (latest == null) {
            return this;
        }
        var kept = latest.points().stream()
                .dropWhile(point -> !point.figure().runId().equals(firstRunAfterStep))
                .toList();
        return kept.isEmpty() || kept.size() == latest.points().size()
                ? this
                : new WhiteSeries(
                        state, several, reference, series, new Segment<>(latest.start(), kept), runsWithoutHours, true);
    }

    private static Optional<White> white(RunMeasured run) {
        return run.readings()
                .white()
                .filter(reading -> reading.luminance() > 0)
                .flatMap(reading -> reading.xyz().uv1976().map(uv -> new White(run.id(), reading.luminance(), uv)));
    }

    /** The library parts a series where the panel is another one; a reset that people told of parts it, too. */
    private static String panel(Counter.Era era) {
        return era.panels() + " replaced, " + era.resets() + RESETS;
    }

    private static Optional<LeftState> stateAt(List<LeftState> states, RunMeasured run) {
        return states.stream()
                .filter(state -> !state.from().isAfter(run.run().takenAt()))
                .reduce((earlier, later) -> later);
    }

    private static boolean several(List<LeftState> states) {
        var operators = new HashSet<String>();
        for (var state : states) {
            if (state.operator() == null) {
                operators.clear();
            } else {
                operators.add(state.operator());
            }
        }
        return operators.size() > 1;
    }

    private static @Nullable White reference(@Nullable LeftState state, List<White> whites) {
        return whites.stream()
                .filter(white -> state != null && white.runId().equals(state.runId()))
                .findFirst()
                .orElse(null);
    }

    /** All that was measured, oldest first, as a figure. */
    List<ForecastPoint> points(ToDoubleFunction<White> figure) {
        Set<UUID> used = latest == null
                ? Set.of()
                : latest.points().stream().map(point -> point.figure().runId()).collect(Collectors.toSet());
        var all = new ArrayList<SeriesPoint<White>>(series.doubtful());
        series.segments().forEach(segment -> all.addAll(segment.points()));
        all.sort(java.util.Comparator.comparing(SeriesPoint::at));
        return all.stream()
                .map(point -> new ForecastPoint(
                        point.figure().runId(),
                        point.at(),
                        point.panelHours(),
                        figure.applyAsDouble(point.figure()),
                        used.contains(point.figure().runId()),
                        series.doubtful().contains(point)))
                .toList();
    }

    /** A segment of one figure. */
    static <T> Segment<T> figures(Segment<White> segment, Function<White, T> figure) {
        return new Segment<>(
                segment.start(),
                segment.points().stream()
                        .map(point -> new SeriesPoint<>(
                                point.panelHours(),
                                point.at(),
                                figure.apply(point.figure()),
                                point.baseline(),
                                point.panel()))
                        .toList());
    }

    /** Where the readings that a forecast rests on lie; null when there are none. */
    Outlook.@Nullable From from() {
        if (latest == null) {
            return null;
        }
        var first = latest.points().get(0);
        return new Outlook.From(
                start(latest),
                latest.points().size(),
                first.panelHours(),
                latest.last().panelHours(),
                first.at(),
                latest.last().at());
    }

    private SegmentStart start(Segment<White> segment) {
        if (stepped) {
            return SegmentStart.STEP;
        }
        return switch (segment.start()) {
            case FIRST -> SegmentStart.FIRST;
            case PANEL_SWAP -> samePanelBefore(segment) ? SegmentStart.COUNTER_RESET : SegmentStart.PANEL_SWAP;
            case COUNTER_RESET -> SegmentStart.COUNTER_RESET;
            case COUNTER_JUMP -> SegmentStart.COUNTER_JUMP;
            case RECALIBRATION -> state != null && state.signed() ? SegmentStart.SIGN_OFF : SegmentStart.RECALIBRATION;
        };
    }

    private boolean samePanelBefore(Segment<White> segment) {
        var before = series.segments().get(series.segments().indexOf(segment) - 1);
        return panels(before).equals(panels(segment));
    }

    private static String panels(Segment<White> segment) {
        return segment.last().panel().replaceFirst("\\d+" + RESETS + "$", "");
    }
}
