package panelbook.app.assessment;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.stream.IntStream;
import org.jspecify.annotations.Nullable;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;
import panelbook.app.runs.StoredRun;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.wire.Basis;
import panelbook.wire.Decision;
import panelbook.wire.Metric;
import panelbook.wire.Purpose;

/**
 * How soon the rule of the service tells a step, and how often it tells one that is none: displays checked weekly, each week
 * judged by the runs so far, by the limits and the decision rule of the set "HDR grading". Printed by
 * {@code deploy/bench/simulations}.
 */
public final class StepSimulation {

    private static final int STEP_AT = 20;
    private static final int AFTER = 12;
    private static final double SCATTER = 0.003;
    private static final double UV_SCATTER = 0.0003;
    private static final Instant START = Instant.parse("2026-01-05T09:00:00Z");
    private static final Tolerances HDR_GRADING = new Tolerances(
            new UUID(0, 1),
            "HDR grading",
            0,
            null,
            null,
            0.1,
            0.95,
            Map.of(
                    Metric.STEP_LUMINANCE, new Tolerances.Limit(3, Basis.HOUSE_POLICY, null, null),
                    Metric.STEP_WHITE, new Tolerances.Limit(0.003, Basis.HOUSE_POLICY, null, null)));
    private static final InstrumentFacts METER =
            new InstrumentFacts(new UUID(0, 2), "meter", 2, 0.1, 0.002, 0.0001, 0.0005, List.of(), List.of());
    private static final PresetFacts PRESET = new PresetFacts(
            new UUID(0, 3),
            "House/Room/Display/User 1",
            new UUID(0, 4),
            new UUID(0, 5),
            new UUID(0, 6),
            "model",
            "oled",
            new UUID(0, 7),
            0,
            Studio.TARGET,
            new UUID(0, 1),
            0,
            30,
            null);

    private StepSimulation() {}

    /**
     * What displays do beside ageing.
     *
     * @param luminance step of luminance, a share; 0 for none
     * @param white step of white in u′v′; 0 for none
     * @param wild share of the runs that are wild, by 3 to 10 %
     * @param ownHours whether the counter is noted with every run
     */
    record Fleet(double luminance, double white, double wild, boolean ownHours) {}

    /**
     * How it came out.
     *
     * @param displays how many
     * @param early share that told a step before there was one
     * @param told share told by so many runs after the step, from 1 on
     * @param dated share of those told whose step lies between the very runs around it
     */
    record Outcome(int displays, double early, double[] told, double dated) {}

    static Outcome of(Fleet fleet, int displays) {
        var early = 0;
        var dated = 0;
        var toldBy = new int[AFTER + 1];
        for (var display = 0; display < displays; display++) {
            var runs = runs(fleet, STEP_AT + AFTER, new Random(display * 0x9E3779B97F4A7C15L + 1));
            for (var n = 1; n <= runs.size(); n++) {
                var found = beyond(runs.subList(0, n));
                if (found != null && n <= STEP_AT) {
                    early++;
                    break;
                }
                if (found != null) {
                    IntStream.rangeClosed(n - STEP_AT, AFTER).forEach(after -> toldBy[after]++);
                    dated += found.firstAfter() == STEP_AT ? 1 : 0;
                    break;
                }
            }
        }
        var told = IntStream.of(toldBy)
                .mapToDouble(count -> count / (double) displays)
                .toArray();
        return new Outcome(
                displays, early / (double) displays, told, toldBy[AFTER] == 0 ? 0 : dated / (double) toldBy[AFTER]);
    }

    /** Share of displays that told a step within so many weeks although there was none. */
    static double falseAlarms(Fleet still, int displays, int weeks) {
        var alarms = 0;
        for (var display = 0; display < displays; display++) {
            var runs = runs(still, weeks, new Random(display * 0x9E3779B97F4A7C15L + 7));
            alarms += IntStream.rangeClosed(1, weeks).anyMatch(n -> beyond(runs.subList(0, n)) != null) ? 1 : 0;
        }
        return alarms / (double) displays;
    }

    private static @Nullable FoundStep beyond(List<RunMeasured> runs) {
        var series = StepSeries.of(PRESET, runs);
        for (var metric : StepSeries.METRICS) {
            var step = series.told(metric).orElse(null);
            var limit = HDR_GRADING.limit(metric);
            if (step != null && limit != null) {
                var figure = Figure.of(
                        metric, step.value().value(), step.value().standardUncertainty(), step.tale(), step.readings());
                if (Judgement.of(figure, limit, HDR_GRADING).decision() == Decision.BEYOND) {
                    return step;
                }
            }
        }
        return null;
    }

    private static List<RunMeasured> runs(Fleet fleet, int weeks, Random random) {
        var beta = 0.5 + 0.5 * random.nextDouble();
        var life = 20_000 + 60_000 * random.nextDouble();
        var drift = 0.003 * (random.nextDouble() - 0.5) / 52;
        var sign = random.nextBoolean() ? 1 : -1;
        var angle = 2 * Math.PI * random.nextDouble();
        var white = Studio.TARGET.white().uv1976().orElseThrow();
        var runs = new ArrayList<RunMeasured>();
        for (var week = 0; week < weeks; week++) {
            var hours = 200 + 60 * week;
            var stepped = week >= STEP_AT ? 1 : 0;
            var wild = random.nextDouble() < fleet.wild()
                    ? (random.nextBoolean() ? 1 : -1) * (0.03 + 0.07 * random.nextDouble())
                    : 0;
            var luminance = 1000
                    * Math.exp(-Math.pow(hours / life, beta) + SCATTER * random.nextGaussian() + wild)
                    * (1 + sign * stepped * fleet.luminance());
            var uv = new UV1976(
                    white.u()
                            + drift * week
                            + UV_SCATTER * random.nextGaussian()
                            + stepped * fleet.white() * Math.cos(angle),
                    white.v()
                            - drift * week
                            + UV_SCATTER * random.nextGaussian()
                            + stepped * fleet.white() * Math.sin(angle));
            runs.add(run(week, fleet.ownHours() ? (double) hours : null, XYZ.of(uv, luminance)));
        }
        return runs;
    }

    private static RunMeasured run(int week, @Nullable Double hours, XYZ xyz) {
        var taken = START.plus(Duration.ofDays(7L * week));
        var codes = Studio.TARGET.codes();
        return new RunMeasured(
                new StoredRun(
                        new UUID(1, week),
                        PRESET.presetId(),
                        METER.id(),
                        week == 0 ? Purpose.AS_LEFT : Purpose.CHECK,
                        taken,
                        taken,
                        hours,
                        true,
                        1),
                METER,
                null,
                new MeasuredRun(
                        Readings.of(codes, List.of(new Reading(Patch.grey(codes.white()), xyz))),
                        METER.on("oled", null)));
    }

    /**
     * Prints the tables.
     *
     * @param arguments how many displays of each kind
     */
    public static void main(String[] arguments) {
        var displays = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 1000;
        System.out.println(
                "| step after 20 weekly runs | told by run 2, 3, 4, 8, 12, % | dated exactly, % | told before, % |");
        System.out.println("|---|---|---|---|");
        for (var percent : new int[] {2, 3, 4, 5, 6, 8, 12}) {
            line("luminance " + percent + " %", of(new Fleet(percent / 100.0, 0, 0.02, true), displays));
        }
        for (var uv : new int[] {2, 3, 4, 6, 8}) {
            line("white 0.00" + uv, of(new Fleet(0, uv / 1000.0, 0.02, true), displays));
        }
        line("luminance 6 %, no counter", of(new Fleet(0.06, 0, 0.02, false), displays));
        System.out.println();
        System.out.println("| displays that only age, 104 weekly runs | told a step, % |");
        System.out.println("|---|---|");
        for (var wild : new double[] {0, 0.02, 0.05}) {
            System.out.printf(
                    Locale.ROOT,
                    "| %.0f %% of the runs wild | %.2f |%n",
                    100 * wild,
                    100 * falseAlarms(new Fleet(0, 0, wild, true), displays, 104));
        }
    }

    private static void line(String what, Outcome outcome) {
        var told = outcome.told();
        System.out.printf(
                Locale.ROOT,
                "| %s | %.0f, %.0f, %.0f, %.0f, %.0f | %.0f | %.2f |%n",
                what,
                100 * told[2],
                100 * told[3],
                100 * told[4],
                100 * told[8],
                100 * told[12],
                100 * outcome.dated(),
                100 * outcome.early());
    }
}
