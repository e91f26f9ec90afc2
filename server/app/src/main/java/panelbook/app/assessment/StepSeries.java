package panelbook.app.assessment;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import java.util.stream.Stream;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.control.StepWatch;
import panelbook.colorimetry.control.Track;
import panelbook.colorimetry.control.Watched;
import panelbook.colorimetry.forecast.Series;
import panelbook.colorimetry.forecast.SeriesPoint;
import panelbook.colorimetry.uncertainty.Term;
import panelbook.wire.Metric;
import panelbook.wire.Purpose;

/**
 * The whites of a preset since it was left as it is, watched for steps: over panel hours where every run has them, else over
 * the clock. A counter that was reset or jumped starts anew, and so does a run that was left by whoever calibrates.
 */
final class StepSeries {

    /** What is watched. */
    static final List<Metric> METRICS = List.of(Metric.STEP_LUMINANCE, Metric.STEP_WHITE);

    private final PresetFacts preset;
    private final List<RunMeasured> runs;
    private final double[] over;
    private final Map<Metric, Watched> watched = new EnumMap<>(Metric.class);

    private StepSeries(PresetFacts preset, List<RunMeasured> runs, double[] over) {
        this.preset = preset;
        this.runs = List.copyOf(runs);
        this.over = over;
    }

    /**
     * A series.
     *
     * @param whites since the preset was left as it is, oldest first
     */
    static StepSeries of(PresetFacts preset, List<RunMeasured> whites) {
        var runs = sinceLeft(whites).stream().filter(StepSeries::isLit).toList();
        if (runs.stream().anyMatch(run -> run.run().panelHours() == null)) {
            return overTheClock(preset, runs);
        }
        var points = runs.stream()
                .map(run -> new SeriesPoint<>(
                        Objects.requireNonNull(run.run().panelHours()),
                        run.run().takenAt(),
                        run,
                        "",
                        preset.displayId().toString()))
                .toList();
        var latest = Series.split(points).latest().map(Series.Segment::points).orElse(List.of());
        return new StepSeries(
                preset,
                latest.stream().map(SeriesPoint::figure).toList(),
                latest.stream().mapToDouble(SeriesPoint::panelHours).toArray());
    }

    private static StepSeries overTheClock(PresetFacts preset, List<RunMeasured> runs) {
        var first = runs.get(0).run().takenAt();
        return new StepSeries(
                preset,
                runs,
                runs.stream()
                        .mapToDouble(run ->
                                Duration.between(first, run.run().takenAt()).toMinutes() / 60.0)
                        .toArray());
    }

    private static List<RunMeasured> sinceLeft(List<RunMeasured> whites) {
        var last = 0;
        for (var i = 0; i < whites.size(); i++) {
            last = whites.get(i).run().purpose() == Purpose.AS_LEFT ? i : last;
        }
        return whites.subList(last, whites.size());
    }

    private static boolean isLit(RunMeasured run) {
        return run.readings()
                .white()
                .filter(white -> white.luminance() > 0 && white.xyz().uv1976().isPresent())
                .isPresent();
    }

    PresetFacts preset() {
        return preset;
    }

    RunMeasured run(int i) {
        return runs.get(i);
    }

    int size() {
        return runs.size();
    }

    RunMeasured last() {
        return runs.get(runs.size() - 1);
    }

    /** Whether what it goes by is the counter. */
    boolean isOverPanelHours() {
        return runs.get(0).run().panelHours() != null;
    }

    /** Only the runs by some instruments. */
    StepSeries only(Predicate<UUID> instrument) {
        var kept = new ArrayList<Integer>();
        for (var i = 0; i < runs.size(); i++) {
            if (instrument.test(runs.get(i).instrument().id())) {
                kept.add(i);
            }
        }
        return new StepSeries(
                preset,
                kept.stream().map(runs::get).toList(),
                kept.stream().mapToDouble(i -> over[i]).toArray());
    }

    private Watched watched(Metric metric) {
        return watched.computeIfAbsent(metric, m -> StepWatch.watch(track(m)));
    }

    private Track track(Metric metric) {
        var meters =
                runs.stream().map(run -> run.measured().uncertainty().source()).toList();
        if (metric == Metric.STEP_LUMINANCE) {
            return Track.of(
                    over, new double[][] {figures(run -> Math.log(white(run).y()))}, meters, new double[] {
                        repeatability(run -> random(logLuminance(run)))
                    });
        }
        var repeatability = repeatability(run -> random(chromaticity(run)));
        return Track.of(
                over, new double[][] {figures(run -> uv(run).u()), figures(run -> uv(run).v())}, meters, new double[] {
                    repeatability, repeatability
                });
    }

    private double[] figures(ToDoubleFunction<RunMeasured> figure) {
        return runs.stream().mapToDouble(figure).toArray();
    }

    private double repeatability(ToDoubleFunction<RunMeasured> s) {
        return runs.stream().mapToDouble(s).average().orElse(0);
    }

    private static XYZ white(RunMeasured run) {
        return run.readings().white().orElseThrow().xyz();
    }

    private static UV1976 uv(RunMeasured run) {
        return white(run).uv1976().orElseThrow();
    }

    private static Term logLuminance(RunMeasured run) {
        return run.measured().uncertainty().ofLogLuminance(1, white(run).y());
    }

    private static Term chromaticity(RunMeasured run) {
        return run.measured().uncertainty().ofChromaticity(1);
    }

    /** What two meters may differ by although both are right: their systematic parts. */
    double betweenMeters(Metric metric, int one, int other) {
        return Math.hypot(systematic(metric, runs.get(one)), systematic(metric, runs.get(other)));
    }

    private static double systematic(Metric metric, RunMeasured run) {
        var term = metric == Metric.STEP_LUMINANCE ? logLuminance(run) : chromaticity(run);
        var squares = Math.pow(term.standardUncertainty(), 2) - Math.pow(term.repeatability(), 2);
        return term.coefficient() * Math.sqrt(Math.max(squares, 0));
    }

    private static double random(Term term) {
        return term.coefficient() * term.repeatability();
    }

    /** The step to be told: the longest of those that nothing took back, and of the changes of meter; empty when there is none. */
    Optional<FoundStep> told(Metric metric) {
        if (runs.size() < StepWatch.LEAST_RUNS) {
            return Optional.empty();
        }
        var found = watched(metric);
        return Stream.concat(
                        found.steps().stream()
                                .filter(Watched.Step::stands)
                                .map(step -> new FoundStep(
                                        metric, this, step.lastBefore(), step.firstAfter(), step.size(), false)),
                        found.changesOfMeter().stream()
                                .map(change -> new FoundStep(
                                        metric, this, change.lastBefore(), change.firstAfter(), change.size(), true)))
                .max(Comparator.comparingDouble(step -> step.value().value()));
    }

    /** The first run after the last step that nothing took back, changes of meter apart; empty when there is none. */
    Optional<RunMeasured> afterLastStep(Metric metric) {
        return runs.size() < StepWatch.LEAST_RUNS
                ? Optional.empty()
                : watched(metric).steps().stream()
                        .filter(Watched.Step::stands)
                        .reduce((earlier, later) -> later)
                        .map(step -> run(step.firstAfter()));
    }

    /** What it moved by between two runs that another step may lie between as well; empty when it was not measured after. */
    Optional<FoundStep> at(FoundStep other) {
        var from = runs.size();
        var to = -1;
        for (var i = 1; i < runs.size(); i++) {
            if (runs.get(i).run().takenAt().isAfter(other.from())) {
                from = Math.min(from, i);
            }
            if (runs.get(i - 1).run().takenAt().isBefore(other.to())) {
                to = i;
            }
        }
        return from > to
                ? Optional.empty()
                : watched(other.metric())
                        .at(from, to)
                        .map(place -> new FoundStep(
                                other.metric(), this, place.lastBefore(), place.firstAfter(), place.size(), false));
    }
}
