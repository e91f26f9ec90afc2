package panelbook.colorimetry.forecast;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import panelbook.colorimetry.Require;

/**
 * How much a display is used, to turn panel hours into dates.
 *
 * @param hoursPerDay median over recent intervals between values of the counter, each counted by its days; 0 to 24
 * @param intervals how many it rests on
 */
public record DailyUse(double hoursPerDay, int intervals) {
    /** Habits of a season ago tell little. House rule. */
    private static final Duration RECENT = Duration.ofDays(180);

    /** Values of one day tell how long the visit was. House rule. */
    private static final Duration SHORTEST = Duration.ofHours(20);

    /** So that one long time without a value does not outweigh all others. House rule. */
    private static final double MOST_DAYS = 30;

    private static final int LEAST_INTERVALS = 2;

    public DailyUse {
        Require.notNegative("hours per day", hoursPerDay);
    }

    /**
     * A value of the counter.
     *
     * @param panelHours h, not negative
     * @param at when it was read
     * @param panel key of the panel in the display
     */
    public record CounterValue(double panelHours, Instant at, String panel) {
        public CounterValue {
            Require.notNegative("panel hours", panelHours);
        }
    }

    private record Interval(double days, double hoursPerDay) {}

    /**
     * Learns the use from the 180 days before the latest value.
     *
     * @param values of the counter, in any order. Intervals over a reset or a swap, and those in which the counter ran
     *     faster than the clock, count for nothing
     * @return the use; empty when fewer than two intervals are left or when the display stood idle in most of them: then
     *     panel hours have no date
     */
    public static Optional<DailyUse> of(List<CounterValue> values) {
        List<CounterValue> sorted = new ArrayList<>(values);
        sorted.sort(Comparator.comparing(CounterValue::at).thenComparing(CounterValue::panelHours));
        List<Interval> intervals = intervals(sorted);
        double median = weightedMedian(intervals);
        return intervals.size() < LEAST_INTERVALS || median <= 0
                ? Optional.empty()
                : Optional.of(new DailyUse(median, intervals.size()));
    }

    /**
     * When the counter will show this much.
     *
     * @param latest a value of the counter now in force
     * @param panelHours h
     * @return the instant, if the display is used as it was; before {@code latest} when the counter has shown that already
     */
    public Instant when(CounterValue latest, double panelHours) {
        double days = (panelHours - latest.panelHours()) / hoursPerDay;
        return latest.at().plusSeconds(Math.round(days * Duration.ofDays(1).toSeconds()));
    }

    private static List<Interval> intervals(List<CounterValue> sorted) {
        List<Interval> intervals = new ArrayList<>();
        if (sorted.isEmpty()) {
            return intervals;
        }
        Instant since = sorted.get(sorted.size() - 1).at().minus(RECENT);
        CounterValue before = sorted.get(0);
        for (CounterValue now : sorted) {
            Duration between = Duration.between(before.at(), now.at());
            boolean breaks = !now.panel().equals(before.panel()) || now.panelHours() < before.panelHours();
            if (!breaks && between.compareTo(SHORTEST) < 0) {
                continue;
            }
            double days = Series.hours(between) / 24;
            double rate = (now.panelHours() - before.panelHours()) / days;
            if (!breaks && now.at().isAfter(since) && rate <= 24 + Series.CLOCK_SLACK_HOURS / days) {
                intervals.add(new Interval(Math.min(days, MOST_DAYS), Math.min(rate, 24)));
            }
            before = now;
        }
        return intervals;
    }

    private static double weightedMedian(List<Interval> intervals) {
        List<Interval> sorted = new ArrayList<>(intervals);
        sorted.sort(Comparator.comparingDouble(Interval::hoursPerDay));
        double half = sorted.stream().mapToDouble(Interval::days).sum() / 2;
        double sum = 0;
        for (Interval i : sorted) {
            sum += i.days();
            if (sum >= half) {
                return i.hoursPerDay();
            }
        }
        return 0;
    }
}
