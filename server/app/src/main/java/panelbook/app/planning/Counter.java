package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import panelbook.colorimetry.forecast.DailyUse;

/**
 * The panel-hours counter of a display as it was read. A step that goes back or runs faster than the clock (a reset, another
 * panel, a typing error) is passed over: what lies on both sides of it counts.
 *
 * @param values oldest first
 */
record Counter(List<Value> values) {

    /** What a counter may run ahead of the clock, h: values are noted a little after they were read. */
    private static final double SLACK_HOURS = 2;

    /**
     * A value.
     *
     * @param hours counter, h
     */
    record Value(Instant at, double hours) {}

    Counter {
        values = List.copyOf(values);
    }

    /**
     * How it was used lately, by the library's rules.
     *
     * @param panel key of the panel
     * @return the use; empty where the values do not tell
     */
    Optional<DailyUse> use(String panel) {
        return DailyUse.of(values.stream()
                .map(value -> new DailyUse.CounterValue(value.hours(), value.at(), panel))
                .toList());
    }

    /** How long the panel ran from a time on, or from the first value after it, to the last value, h. */
    double hoursSince(Instant from) {
        var hours = 0.0;
        for (var i = 1; i < values.size(); i++) {
            var before = values.get(i - 1);
            var after = values.get(i);
            if (after.at().isAfter(from) && follows(before, after)) {
                var start = before.at().isBefore(from) ? between(before, after, from) : before.hours();
                hours += after.hours() - start;
            }
        }
        return hours;
    }

    /** The counter at a time between two readings that follow one another, as if it had run evenly. */
    OptionalDouble at(Instant at) {
        for (var i = 0; i < values.size(); i++) {
            var value = values.get(i);
            if (value.at().equals(at)) {
                return OptionalDouble.of(value.hours());
            }
            if (value.at().isAfter(at)) {
                return i > 0 && follows(values.get(i - 1), value)
                        ? OptionalDouble.of(between(values.get(i - 1), value, at))
                        : OptionalDouble.empty();
            }
        }
        return OptionalDouble.empty();
    }

    private static double between(Value before, Value after, Instant at) {
        var share = hours(before.at(), at) / hours(before.at(), after.at());
        return before.hours() + share * (after.hours() - before.hours());
    }

    private static boolean follows(Value before, Value after) {
        var ran = after.hours() - before.hours();
        return ran >= 0 && ran <= hours(before.at(), after.at()) + SLACK_HOURS;
    }

    private static double hours(Instant from, Instant to) {
        return Duration.between(from, to).toMillis() / 3.6e6;
    }
}
