package panelbook.colorimetry.forecast;

import java.util.OptionalDouble;
import java.util.function.DoubleUnaryOperator;
import java.util.stream.DoubleStream;
import panelbook.colorimetry.Require;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.forecast.Series.Segment;
import panelbook.colorimetry.uncertainty.Normal;

/**
 * When a tolerance will be crossed, by the readings of one segment.
 *
 * <p>Nothing is said beyond six times the hours observed, counted from the first reading. Source: the limit that ANSI/IES
 * TM-21-11, 5.2.5, sets for LED sources (the clause from memory); taken over for displays as a house rule.
 */
public final class Forecaster {
    /** Fewer give bounds by ranks that hold too seldom or reach too far. House rule. */
    public static final int LEAST_READINGS = 5;

    /** See the class. */
    public static final double HORIZON_FACTOR = 6;

    private static final int SCAN = 240;
    private static final int HALVINGS = 50;

    private Forecaster() {}

    /**
     * Forecasts peak luminance.
     *
     * @param segment luminances, cd/m2, greater than zero
     * @param limit the luminance that is not to be crossed, cd/m2; a floor when the readings lie above it, else a ceiling
     * @return a forecast; its trend is in ln(cd/m2): a line, or towards a floor the stretched exponential where that
     *     explains the readings better
     */
    public static Forecast luminance(Segment<Double> segment, double limit) {
        double[] figures = segment.points().stream()
                .mapToDouble(p -> Math.log(Require.positive("luminance in cd/m2", p.figure())))
                .toArray();
        double[] hours = segment.hours();
        double logLimit = Math.log(Require.positive("limit in cd/m2", limit));
        int readings = differentHours(hours);
        if (readings < LEAST_READINGS) {
            return new Forecast.TooFew(readings, LEAST_READINGS);
        }
        LineTrend line = LineTrend.of(hours, figures);
        boolean floor = TheilSen.median(figures) > logLimit;
        Trend trend = floor && line.falls() ? AgeingTrend.of(line, hours, figures) : line;
        boolean moves = floor ? line.falls() : line.rises();
        return forecast(trend, moves, floor, logLimit, hours);
    }

    /**
     * Forecasts the white.
     *
     * @param segment chromaticities of white
     * @param from where the tolerance is measured from: the baseline's white or the target's
     * @param tolerance radius in u'v', greater than zero
     * @return a forecast by lines on u' and on v'; its trend is the distance from {@code from} along the direction in which
     *     the lines reach the tolerance, in u'v'
     */
    public static Forecast white(Segment<UV1976> segment, UV1976 from, double tolerance) {
        Require.positive("tolerance in u'v'", tolerance);
        double[] hours = segment.hours();
        int readings = differentHours(hours);
        if (readings < LEAST_READINGS) {
            return new Forecast.TooFew(readings, LEAST_READINGS);
        }
        double[] du = segment.points().stream()
                .mapToDouble(p -> p.figure().u() - from.u())
                .toArray();
        double[] dv = segment.points().stream()
                .mapToDouble(p -> p.figure().v() - from.v())
                .toArray();
        LineTrend u = LineTrend.of(hours, du);
        LineTrend v = LineTrend.of(hours, dv);
        double reached = reach(u, v, tolerance, hours);
        double size = Math.hypot(u.at(reached), v.at(reached));
        double[] along = new double[hours.length];
        for (int i = 0; i < along.length; i++) {
            along[i] = (du[i] * u.at(reached) + dv[i] * v.at(reached)) / size;
        }
        LineTrend trend = LineTrend.of(hours, unbiased(along, hours));
        return forecast(trend, moves(u, v) && trend.rises(), false, tolerance, hours);
    }

    /**
     * A direction chosen after the event makes the way along it too long, by the noise across it: the mean length of a
     * vector b with noise s across is b + s2 / 2b to first order. The noise across is taken for that along.
     */
    private static double[] unbiased(double[] along, double[] hours) {
        TheilSen line = TheilSen.fit(hours, along);
        double slope = line.slope();
        double noise = (slope - line.lowerBound(Trend.CONFIDENCE)) / Normal.quantile(Trend.CONFIDENCE);
        double excess = slope > noise ? noise * noise / (2 * slope) : 0;
        double pivot = DoubleStream.of(hours).average().orElseThrow();
        double[] shortened = along.clone();
        for (int i = 0; i < shortened.length; i++) {
            shortened[i] -= excess * (hours[i] - pivot);
        }
        return shortened;
    }

    /** Both coordinates together, since the direction is chosen after the event: chi2 of two degrees of freedom, 90 %. */
    private static boolean moves(LineTrend u, LineTrend v) {
        double zu = u.line().kendall().z();
        double zv = v.line().kendall().z();
        return zu * zu + zv * zv > -2 * Math.log(1 - Trend.CONFIDENCE);
    }

    /** Where the lines leave the circle; the horizon when they do not within it. */
    private static double reach(LineTrend u, LineTrend v, double tolerance, double[] hours) {
        DoubleUnaryOperator room = h -> tolerance - Math.hypot(u.at(h), v.at(h));
        return firstBelowZero(room, last(hours), horizon(hours)).orElse(horizon(hours));
    }

    private static Forecast forecast(Trend trend, boolean moves, boolean floor, double limit, double[] hours) {
        double horizon = horizon(hours);
        DoubleUnaryOperator room = h -> floor ? trend.at(h) - limit : limit - trend.at(h);
        DoubleUnaryOperator leastRoom = leastRoom(trend, floor, limit);
        if (room.applyAsDouble(last(hours)) < 0) {
            return new Forecast.BeyondAlready(trend);
        }
        if (!moves) {
            return new Forecast.Flat(trend);
        }
        OptionalDouble earliest = firstBelowZero(leastRoom, last(hours), horizon);
        if (earliest.isEmpty()) {
            return new Forecast.NotWithinHorizon(trend, horizon);
        }
        return new Forecast.Crossing(
                trend, firstBelowZero(room, last(hours), horizon), earliest.getAsDouble(), horizon);
    }

    /** Below zero where the edge of the band lies beyond the limit. */
    private static DoubleUnaryOperator leastRoom(Trend trend, boolean floor, double limit) {
        if (!floor) {
            return h -> limit - trend.high(h);
        }
        return trend instanceof AgeingTrend ageing
                ? h -> ageing.isLowBelow(h, limit) ? -1 : 1
                : h -> trend.low(h) - limit;
    }

    private static OptionalDouble firstBelowZero(DoubleUnaryOperator room, double from, double to) {
        double before = from;
        for (int step = 0; step <= SCAN; step++) {
            double here = from + (to - from) * step / SCAN;
            if (room.applyAsDouble(here) < 0) {
                return OptionalDouble.of(halve(room, before, here));
            }
            before = here;
        }
        return OptionalDouble.empty();
    }

    private static double halve(DoubleUnaryOperator room, double above, double below) {
        double low = above;
        double high = below;
        for (int i = 0; i < HALVINGS && high > low; i++) {
            double middle = (low + high) / 2;
            if (room.applyAsDouble(middle) < 0) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return high;
    }

    private static int differentHours(double[] hours) {
        return (int) DoubleStream.of(hours).distinct().count();
    }

    private static double last(double[] hours) {
        return hours[hours.length - 1];
    }

    private static double horizon(double[] hours) {
        return hours[0] + HORIZON_FACTOR * (last(hours) - hours[0]);
    }
}
