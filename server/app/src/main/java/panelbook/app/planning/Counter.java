package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.forecast.DailyUse;
import panelbook.wire.PanelHoursAnswerKind;

/**
 * The panel-hours counter of a display as it was read. A step that goes back or runs faster than the clock (a reset, another
 * panel, a typing error) is passed over: what lies on both sides of it counts.
 *
 * @param values that count, oldest first
 * @param mistyped runs that brought a value which a person said was mistyped
 */
record Counter(List<Value> values, Set<UUID> mistyped) {

    /** What a counter may run ahead of the clock, h: values are noted a little after they were read. */
    private static final double SLACK_HOURS = 2;

    /**
     * A value.
     *
     * @param hours counter, h
     * @param runId the run that brought it; null when a person entered it
     * @param era which panel it counts for, and since which reset
     */
    record Value(Instant at, double hours, @Nullable UUID runId, Era era) {}

    /**
     * A time over which a counter counts on, as people said.
     *
     * @param panels how many panels were replaced before
     * @param resets how often the counter was reset before
     */
    record Era(int panels, int resets) {

        static final Era FIRST = new Era(0, 0);

        /** The era that begins with a value of which a person said this; the same when nothing began. */
        Era after(@Nullable PanelHoursAnswerKind answer) {
            return answer == PanelHoursAnswerKind.PANEL_REPLACED
                    ? new Era(panels + 1, resets)
                    : answer == PanelHoursAnswerKind.COUNTER_RESET ? new Era(panels, resets + 1) : this;
        }
    }

    /**
     * Where a run lies in the life of a panel.
     *
     * @param hours counter, h
     */
    record Position(double hours, Era era) {}

    static final Counter NONE = new Counter(List.of(), Set.of());

    Counter {
        values = List.copyOf(values);
        mistyped = Set.copyOf(mistyped);
    }

    /**
     * Where a run lies: by the value that it brought, as it was corrected; else, by the values around it.
     *
     * @param own value that the run names; null when it names none
     */
    Optional<Position> of(UUID runId, Instant takenAt, @Nullable Double own) {
        var brought =
                values.stream().filter(value -> runId.equals(value.runId())).reduce((earlier, later) -> later);
        if (brought.isPresent()) {
            return Optional.of(new Position(brought.get().hours(), brought.get().era()));
        }
        if (own != null && !mistyped.contains(runId)) {
            return Optional.of(new Position(own, eraAt(takenAt)));
        }
        var between = at(takenAt);
        return between.isPresent()
                ? Optional.of(new Position(between.getAsDouble(), eraAt(takenAt)))
                : Optional.empty();
    }

    private Era eraAt(Instant at) {
        return values.stream()
                .filter(value -> !value.at().isAfter(at))
                .reduce((earlier, later) -> later)
                .map(Value::era)
                .orElse(Era.FIRST);
    }

    /**
     * How it was used lately, by the library's rules.
     *
     * @param panel key of the panel
     * @return the use; empty where the values do not tell
     */
    Optional<DailyUse> use(String panel) {
        return DailyUse.of(values.stream()
                .map(value -> new DailyUse.CounterValue(value.hours(), value.at(), panel + value.era()))
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
        return before.era().equals(after.era()) && ran >= 0 && ran <= hours(before.at(), after.at()) + SLACK_HOURS;
    }

    private static double hours(Instant from, Instant to) {
        return Duration.between(from, to).toMillis() / 3.6e6;
    }
}
