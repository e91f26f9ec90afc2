package panelbook.app.planning;

import java.time.Clock;
import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.assessment.AfterSteps;
import panelbook.app.planning.WhiteSeries.White;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.forecast.DailyUse;
import panelbook.colorimetry.forecast.Forecast;
import panelbook.colorimetry.forecast.Forecaster;
import panelbook.colorimetry.forecast.Series.Segment;
import panelbook.colorimetry.forecast.Trend;
import panelbook.wire.ForecastAnswer;
import panelbook.wire.ForecastPoint;
import panelbook.wire.Metric;
import panelbook.wire.PresetForecast;

/**
 * Looks ahead along the whites of presets: when peak luminance and white cross the limits of their own drift from the state
 * that the preset was left in.
 */
@Component
public class Outlooks {

    private final PlanningBook book;
    private final PresetFactsBook facts;
    private final MeasuredRuns runs;
    private final Clock clock;

    Outlooks(PlanningBook book, PresetFactsBook facts, MeasuredRuns runs, Clock clock) {
        this.book = book;
        this.facts = facts;
        this.runs = runs;
        this.clock = clock;
    }

    /**
     * The forecast of a preset, retired or not, all of it from one state of the book.
     *
     * @throws Refusal when there is no such preset
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public PresetForecast forecast(UUID presetId) {
        return of(book.of(presetId)).stream()
                .map(prospect -> ForecastViews.of(prospect, clock.instant()))
                .findFirst()
                .orElseThrow(() -> Refusal.notFound("preset", presetId));
    }

    /** What lies ahead of each of the presets, in their order, with all that was ever measured. */
    List<Prospect> of(List<PresetLine> lines) {
        return of(lines, book.leftStates(ids(lines)), Map.of());
    }

    /**
     * What lies ahead of each of the presets, in their order, from the runs since each was left as it is: no other run changes
     * the answer, and of a large fleet they are many. The points before are left out.
     */
    List<Prospect> sinceLeft(List<PresetLine> lines) {
        var states = book.leftStates(ids(lines));
        var since = new HashMap<UUID, Instant>();
        states.forEach(
                (preset, left) -> since.put(preset, left.get(left.size() - 1).from()));
        return of(lines, states, since);
    }

    private static List<UUID> ids(List<PresetLine> lines) {
        return lines.stream().map(PresetLine::presetId).toList();
    }

    private List<Prospect> of(List<PresetLine> lines, Map<UUID, List<LeftState>> states, Map<UUID, Instant> since) {
        var presets = facts.findAll(ids(lines));
        var whites = runs.whitesOf(presets, since);
        var counters = book.counters(
                lines.stream().map(PresetLine::displayId).distinct().toList());
        var uses = new HashMap<UUID, Optional<DailyUse>>();
        counters.forEach((display, counter) -> uses.put(display, counter.use(display.toString())));
        return lines.stream()
                .map(line -> {
                    var counter = counters.getOrDefault(line.displayId(), Counter.NONE);
                    var measured = whites.getOrDefault(line.presetId(), List.of());
                    var series =
                            WhiteSeries.of(line, measured, states.getOrDefault(line.presetId(), List.of()), counter);
                    var steps = steps(presets.get(line.presetId()), series, measured);
                    return new Prospect(
                            line,
                            List.of(
                                    luminance(line, after(steps.get(Metric.STEP_LUMINANCE), series)),
                                    white(line, after(steps.get(Metric.STEP_WHITE), series))),
                            counter,
                            uses.getOrDefault(line.displayId(), Optional.empty()),
                            series.runsWithoutHours());
                })
                .toList();
    }

    /** The first runs after the last steps since the preset was left in the one state that it stands in. */
    private static Map<Metric, UUID> steps(
            @Nullable PresetFacts preset, WhiteSeries series, List<RunMeasured> measured) {
        var state = series.state();
        return preset == null || state == null || series.several() || series.latest() == null
                ? Map.of()
                : AfterSteps.firstRuns(
                        preset,
                        measured.stream()
                                .filter(run -> !run.run().takenAt().isBefore(state.from()))
                                .toList());
    }

    private static WhiteSeries after(@Nullable UUID firstRunAfterStep, WhiteSeries series) {
        return firstRunAfterStep == null ? series : series.after(firstRunAfterStep);
    }

    private static Outlook luminance(PresetLine line, WhiteSeries series) {
        var points = series.points(White::luminance);
        var percent = line.luminanceLimitPercent();
        var reference = series.reference() == null ? null : series.reference().luminance();
        var silent = silent(Metric.OWN_DRIFT_LUMINANCE, series, points, reference, percent);
        if (silent != null || reference == null || percent == null || series.latest() == null) {
            return Objects.requireNonNull(silent);
        }
        var segment = WhiteSeries.figures(series.latest(), White::luminance);
        var ceiling = side(segment, reference * (1 + percent / 100), false);
        var best = percent < 100
                ? Stream.of(side(segment, reference * (1 - percent / 100), true), ceiling)
                        .min(Comparator.comparing(Side::answer).thenComparingDouble(Side::earliest))
                        .orElseThrow()
                : ceiling;
        return outlook(
                Metric.OWN_DRIFT_LUMINANCE, series, points, reference, best.limit(), best.forecast(), best.answer());
    }

    /** A limit on one side of what the preset was left with. */
    private record Side(double limit, Forecast forecast, ForecastAnswer answer) {

        double earliest() {
            return forecast instanceof Forecast.Crossing crossing ? crossing.earliestHours() : 0;
        }
    }

    private static Side side(Segment<Double> segment, double limit, boolean floor) {
        var forecast = Forecaster.luminance(segment, limit);
        var trend = trend(forecast);
        if (trend == null) {
            return new Side(limit, forecast, ForecastAnswer.TOO_FEW_READINGS);
        }
        var room = (floor ? 1 : -1) * (trend.at(segment.last().panelHours()) - Math.log(limit));
        if (room < 0) {
            return new Side(limit, forecast, ForecastAnswer.BEYOND_ALREADY);
        }
        // the library takes a limit above the readings for a ceiling: a display that has come back into tolerance
        // from below would "cross" the floor on its way up
        var median = segment.points().stream()
                .mapToDouble(point -> point.figure())
                .sorted()
                .skip(segment.points().size() / 2)
                .findFirst()
                .orElseThrow();
        return new Side(limit, forecast, floor == median > limit ? answer(forecast) : ForecastAnswer.FLAT);
    }

    private static Outlook white(PresetLine line, WhiteSeries series) {
        var reference = series.reference() == null ? null : series.reference().uv();
        var points = series.points(white -> reference == null ? 0 : distance(white.uv(), reference));
        var tolerance = line.whiteLimit();
        var silent = silent(
                Metric.OWN_DRIFT_WHITE,
                series,
                reference == null ? List.of() : points,
                reference == null ? null : 0.0,
                tolerance);
        if (silent != null || reference == null || tolerance == null || series.latest() == null) {
            return Objects.requireNonNull(silent);
        }
        var segment = WhiteSeries.figures(series.latest(), White::uv);
        var stood = segment.points().stream().allMatch(point -> point.figure().equals(reference));
        // there is no direction to look in where nothing moved at all
        var forecast = stood && segment.points().size() >= Forecaster.LEAST_READINGS
                ? null
                : Forecaster.white(segment, reference, tolerance);
        return outlook(
                Metric.OWN_DRIFT_WHITE,
                series,
                points,
                0.0,
                tolerance,
                forecast,
                forecast == null ? ForecastAnswer.FLAT : answer(forecast));
    }

    private static double distance(UV1976 one, UV1976 other) {
        return Math.hypot(one.u() - other.u(), one.v() - other.v());
    }

    /** The answer where no forecast can be asked for; null where one can. */
    private static @Nullable Outlook silent(
            Metric metric,
            WhiteSeries series,
            List<ForecastPoint> points,
            @Nullable Double reference,
            @Nullable Double limit) {
        if (limit == null || limit <= 0) {
            return silent(
                    metric,
                    ForecastAnswer.NO_LIMIT,
                    series,
                    points,
                    reference,
                    "the tolerance set has no limit for it");
        }
        var why = whyNoReference(series);
        if (why != null) {
            return silent(metric, ForecastAnswer.NO_REFERENCE, series, points, reference, why);
        }
        return series.latest() == null
                ? silent(
                        metric,
                        ForecastAnswer.TOO_FEW_READINGS,
                        series,
                        points,
                        reference,
                        "no run since it was left so has panel hours")
                : null;
    }

    private static @Nullable String whyNoReference(WhiteSeries series) {
        if (series.state() == null) {
            return "there is no baseline to measure a drift from";
        }
        if (series.several()) {
            return "it was matched for several operators, so that its runs show several states";
        }
        return series.reference() == null
                ? series.state().signed()
                        ? "the last sign-off was made without a run of it, so that nothing tells how it was left"
                        : "the run of its baseline holds no reading of white"
                : null;
    }

    private static Outlook silent(
            Metric metric,
            ForecastAnswer answer,
            WhiteSeries series,
            List<ForecastPoint> points,
            @Nullable Double reference,
            String why) {
        return new Outlook(metric, answer, points, series.from(), null, reference, null, null, null, null, why);
    }

    private static Outlook outlook(
            Metric metric,
            WhiteSeries series,
            List<ForecastPoint> points,
            double reference,
            double limit,
            @Nullable Forecast forecast,
            ForecastAnswer answer) {
        Double expected = null;
        Double earliest = null;
        Double horizon = null;
        if (answer == ForecastAnswer.CROSSES && forecast instanceof Forecast.Crossing crossing) {
            expected = crossing.expectedHours().isPresent()
                    ? crossing.expectedHours().getAsDouble()
                    : null;
            earliest = crossing.earliestHours();
            horizon = crossing.horizonHours();
        } else if (answer == ForecastAnswer.NOT_WITHIN_HORIZON && forecast instanceof Forecast.NotWithinHorizon far) {
            horizon = far.horizonHours();
        }
        return new Outlook(
                metric,
                answer,
                points,
                series.from(),
                forecast == null ? null : trend(forecast),
                reference,
                limit,
                expected,
                earliest,
                horizon,
                why(forecast));
    }

    private static String why(@Nullable Forecast forecast) {
        return forecast instanceof Forecast.TooFew few
                ? few.readings() + " of the " + few.needed()
                        + " readings at different panel hours that a forecast needs"
                : "";
    }

    private static ForecastAnswer answer(Forecast forecast) {
        if (forecast instanceof Forecast.TooFew) {
            return ForecastAnswer.TOO_FEW_READINGS;
        }
        if (forecast instanceof Forecast.BeyondAlready) {
            return ForecastAnswer.BEYOND_ALREADY;
        }
        if (forecast instanceof Forecast.NotWithinHorizon) {
            return ForecastAnswer.NOT_WITHIN_HORIZON;
        }
        return forecast instanceof Forecast.Crossing ? ForecastAnswer.CROSSES : ForecastAnswer.FLAT;
    }

    private static @Nullable Trend trend(Forecast forecast) {
        if (forecast instanceof Forecast.Flat flat) {
            return flat.trend();
        }
        if (forecast instanceof Forecast.BeyondAlready beyond) {
            return beyond.trend();
        }
        if (forecast instanceof Forecast.NotWithinHorizon far) {
            return far.trend();
        }
        return forecast instanceof Forecast.Crossing crossing ? crossing.trend() : null;
    }
}
