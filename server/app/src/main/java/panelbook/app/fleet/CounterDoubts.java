package panelbook.app.fleet;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.wire.PanelHoursQuestionKind;

/** Finds the values of a counter that do not go with those before them, by the rules that forecasts part series by. */
final class CounterDoubts {

    /** What a counter may run ahead of the clock, h: values are noted a little after they were read. House rule. */
    static final double SLACK_HOURS = 2;

    private CounterDoubts() {}

    /**
     * A value that counts.
     *
     * @param hours counter, h
     * @param settled whether a person said what it is: it is not asked about, and what follows is compared with it
     */
    record Value(long id, Instant at, double hours, boolean settled) {}

    /**
     * A value to ask about.
     *
     * @param after the value that speaks against it too; null when none does
     */
    record Doubt(
            PanelHoursQuestionKind kind,
            Value before,
            Value value,
            @Nullable Value after) {}

    /**
     * The doubts about a counter.
     *
     * @param values in order of time, of one time by hours
     * @return in the same order, at most one about each value
     */
    static List<Doubt> in(List<Value> values) {
        var doubts = new ArrayList<Doubt>();
        for (var i = 1; i < values.size(); i++) {
            var before = lastUndoubted(values, i, doubts);
            var value = values.get(i);
            var after = i + 1 < values.size() ? values.get(i + 1) : null;
            if (value.settled() || follows(before, value) && !outlier(before, value, after)) {
                continue;
            }
            doubts.add(
                    new Doubt(kind(before, value, after), before, value, outlier(before, value, after) ? after : null));
        }
        return doubts;
    }

    /** A value that the next one contradicts is passed over: what follows goes with the one before it. */
    private static Value lastUndoubted(List<Value> values, int index, List<Doubt> doubts) {
        var before = values.get(index - 1);
        var last = doubts.isEmpty() ? null : doubts.get(doubts.size() - 1);
        return last != null && last.value() == before && last.kind() == PanelHoursQuestionKind.CONTRADICTED
                ? last.before()
                : before;
    }

    private static PanelHoursQuestionKind kind(Value before, Value value, @Nullable Value after) {
        if (outlier(before, value, after)) {
            return PanelHoursQuestionKind.CONTRADICTED;
        }
        return value.hours() < before.hours()
                ? PanelHoursQuestionKind.WENT_BACK
                : PanelHoursQuestionKind.FASTER_THAN_THE_CLOCK;
    }

    private static boolean outlier(Value before, Value value, @Nullable Value after) {
        return after != null
                && !after.settled()
                && follows(before, after)
                && !(follows(before, value) && follows(value, after));
    }

    private static boolean follows(Value before, Value after) {
        var ran = after.hours() - before.hours();
        return ran >= 0 && ran <= Duration.between(before.at(), after.at()).toMillis() / 3.6e6 + SLACK_HOURS;
    }
}
