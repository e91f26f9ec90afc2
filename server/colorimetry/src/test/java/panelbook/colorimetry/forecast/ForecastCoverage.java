package panelbook.colorimetry.forecast;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.function.Predicate;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.forecast.Series.Segment;
import panelbook.colorimetry.simulation.Ageing;

/**
 * How often the earliest crossing at 90 % holds, and how far the expected one is off, on simulated panels. From the
 * project's root:
 *
 * <pre>
 * mvn -o -q -pl server/colorimetry test-compile
 * mvn -o -q -pl server/colorimetry dependency:build-classpath -Dmdep.outputFile=/tmp/classpath
 * java -cp server/colorimetry/target/classes:server/colorimetry/target/test-classes:$(cat /tmp/classpath) \
 *     panelbook.colorimetry.forecast.ForecastCoverage 2000
 * </pre>
 *
 * <p>Half of the panels lose light exponentially, half as a stretched exponential with beta from 0.5 to 0.9 (the range from
 * memory). They were calibrated at up to 3,000 h; the tolerance is a loss of 10 %, and crossed at 1.3 to 5.5 times the hours
 * observed. Readings lie at random hours, scatter by 0.2 to 0.6 %, and one of 20 by five times that. Invented figures.
 */
public final class ForecastCoverage {
    private static final int[] READINGS = {5, 6, 8, 10, 12, 16, 24, 40};
    private static final double LOSS = 0.1;

    private ForecastCoverage() {}

    /**
     * What became of one panel.
     *
     * @param readings how many there were
     * @param stretched whether the panel's truth is one
     * @param curve whether the trend is one
     * @param given whether there was a forecast
     * @param held whether the truth lies no earlier than the bound
     * @param error of the expected crossing less the truth, relative to the hours from the first reading to the truth; NaN
     *     when none was expected within the horizon
     */
    record Outcome(int readings, boolean stretched, boolean curve, boolean given, boolean held, double error) {}

    static List<Outcome> luminance(int panels) {
        List<Outcome> outcomes = new ArrayList<>();
        for (int i = 0; i < panels; i++) {
            outcomes.add(luminance(random(i, 17), READINGS[i % READINGS.length], i / 8 % 2 == 1));
        }
        return outcomes;
    }

    /** Numbers of neighbouring seeds are alike, so the seeds are set far apart. */
    private static Random random(int panel, int of) {
        return new Random(panel * 0x9E3779B97F4A7C15L + of);
    }

    private static Outcome luminance(Random random, int n, boolean stretched) {
        Ageing ageing = new Ageing(
                Math.exp(Math.log(20_000) + random.nextDouble() * Math.log(10)),
                stretched ? 0.5 + 0.4 * random.nextDouble() : 1);
        double first = 3000 * random.nextDouble();
        double whenCrossed = ageing.tauHours()
                * Math.pow(Math.pow(first / ageing.tauHours(), ageing.beta()) - Math.log(1 - LOSS), 1 / ageing.beta());
        double[] hours = hours(random, n, first, (whenCrossed - first) / (1.3 + 4.2 * random.nextDouble()));
        double noise = 0.002 + 0.004 * random.nextDouble();
        List<SeriesPoint<Double>> points = new ArrayList<>();
        for (double h : hours) {
            double wild = random.nextDouble() < 0.05 ? 5 : 1;
            points.add(point(h, 300 * ageing.remaining(h) * Math.exp(noise * wild * random.nextGaussian())));
        }
        double limit = 300 * ageing.remaining(first) * (1 - LOSS);
        return outcome(
                Forecaster.luminance(new Segment<>(Series.Start.FIRST, points), limit),
                n,
                stretched,
                first,
                whenCrossed);
    }

    static List<Outcome> white(int panels) {
        List<Outcome> outcomes = new ArrayList<>();
        for (int i = 0; i < panels; i++) {
            outcomes.add(white(random(i, 29), READINGS[i % READINGS.length]));
        }
        return outcomes;
    }

    /** A white that moves straight, from a little beside the baseline's, until it is 0.004 away. */
    private static Outcome white(Random random, int n) {
        double direction = 2 * Math.PI * random.nextDouble();
        double u0 = 0.0004 * random.nextGaussian();
        double v0 = 0.0004 * random.nextGaussian();
        double tolerance = 0.004;
        double perHour = tolerance / (5000 + 20_000 * random.nextDouble());
        double du = perHour * Math.cos(direction);
        double dv = perHour * Math.sin(direction);
        double b = u0 * du + v0 * dv;
        double c = u0 * u0 + v0 * v0 - tolerance * tolerance;
        double whenCrossed = (-b + Math.sqrt(b * b - perHour * perHour * c)) / (perHour * perHour);
        double[] hours = hours(random, n, 0, whenCrossed / (1.3 + 4.2 * random.nextDouble()));
        double noise = 0.0001 + 0.0003 * random.nextDouble();
        UV1976 from = new UV1976(0.1978, 0.4683);
        List<SeriesPoint<UV1976>> points = new ArrayList<>();
        for (double h : hours) {
            double wild = random.nextDouble() < 0.05 ? 5 : 1;
            points.add(point(
                    h,
                    new UV1976(
                            from.u() + u0 + du * h + wild * noise * random.nextGaussian(),
                            from.v() + v0 + dv * h + wild * noise * random.nextGaussian())));
        }
        return outcome(
                Forecaster.white(new Segment<>(Series.Start.FIRST, points), from, tolerance), n, false, 0, whenCrossed);
    }

    /** From the first hour over all hours observed, in between at random. */
    private static double[] hours(Random random, int n, double first, double observed) {
        double[] hours = new double[n];
        for (int i = 1; i < n - 1; i++) {
            hours[i] = observed * (i + 0.8 * random.nextDouble() - 0.4) / (n - 1);
        }
        hours[n - 1] = observed;
        return Arrays.stream(hours).map(h -> first + h).toArray();
    }

    private static <T> SeriesPoint<T> point(double hours, T figure) {
        return new SeriesPoint<>(hours, Instant.EPOCH.plusSeconds((long) (hours * 3600 * 3)), figure, "b", "p");
    }

    private static Outcome outcome(Forecast forecast, int n, boolean stretched, double first, double truth) {
        if (forecast instanceof Forecast.Crossing c) {
            double error = (c.expectedHours().orElse(Double.NaN) - truth) / (truth - first);
            return new Outcome(n, stretched, isCurve(c.trend()), true, c.earliestHours() <= truth, error);
        }
        if (forecast instanceof Forecast.NotWithinHorizon f) {
            return new Outcome(n, stretched, isCurve(f.trend()), true, f.horizonHours() <= truth, Double.NaN);
        }
        // the truth has not crossed: beyond already is a bound that failed
        boolean given = forecast instanceof Forecast.BeyondAlready;
        return new Outcome(n, stretched, false, given, false, Double.NaN);
    }

    private static boolean isCurve(Trend trend) {
        return trend instanceof AgeingTrend ageing && ageing.curve().isPresent();
    }

    static double held(List<Outcome> outcomes) {
        return outcomes.stream().filter(Outcome::given).filter(Outcome::held).count()
                / (double) outcomes.stream().filter(Outcome::given).count();
    }

    /** Median size of the relative error, one that lies beyond the horizon counted as greater than all. */
    static double medianError(List<Outcome> outcomes) {
        double[] sizes = outcomes.stream()
                .filter(Outcome::given)
                .mapToDouble(o -> Double.isNaN(o.error()) ? Double.POSITIVE_INFINITY : Math.abs(o.error()))
                .sorted()
                .toArray();
        return sizes.length == 0 ? Double.NaN : sizes[sizes.length / 2];
    }

    /**
     * Prints the tables.
     *
     * @param args how many panels
     */
    public static void main(String[] args) {
        int panels = args.length > 0 ? Integer.parseInt(args[0]) : 2000;
        System.out.println(
                "| figure, panels | panels | forecast given, % | curve, % | bound held, % | median error, % |");
        System.out.println("|---|---|---|---|---|---|");
        List<Outcome> luminance = luminance(panels);
        print("luminance, all", luminance, o -> true);
        print("luminance, exponential", luminance, o -> !o.stretched());
        print("luminance, stretched", luminance, Outcome::stretched);
        print("luminance, stretched, taken for a line", luminance, o -> o.stretched() && o.given() && !o.curve());
        print("luminance, found as a curve", luminance, Outcome::curve);
        for (int n : READINGS) {
            print("luminance, " + n + " readings", luminance, o -> o.readings() == n);
        }
        List<Outcome> white = white(panels);
        print("white, all", white, o -> true);
        for (int n : READINGS) {
            print("white, " + n + " readings", white, o -> o.readings() == n);
        }
    }

    private static void print(String name, List<Outcome> all, Predicate<Outcome> which) {
        List<Outcome> outcomes = all.stream().filter(which).toList();
        double given = outcomes.stream().filter(Outcome::given).count();
        System.out.printf(
                Locale.ROOT,
                "| %s | %d | %.0f | %.0f | %.1f | %.0f |%n",
                name,
                outcomes.size(),
                100 * given / outcomes.size(),
                100 * outcomes.stream().filter(Outcome::curve).count() / given,
                100 * held(outcomes),
                100 * medianError(outcomes));
    }
}
