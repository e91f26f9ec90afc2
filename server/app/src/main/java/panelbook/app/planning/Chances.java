package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import org.hipparchus.special.Erf;
import panelbook.wire.DuePreset;
import panelbook.wire.DueReason;
import panelbook.wire.DueRule;
import panelbook.wire.Sureness;

/**
 * How likely it is that a preset stands beyond tolerance at a time, from the rules that make it due. A rule of the calendar, of
 * panel hours or of fact holds from its date on. A forecast crosses at a time that is taken to be normally distributed, its
 * median at the expected crossing and a tenth of it before the earliest; where nothing is expected within the forecast's horizon,
 * a tenth is said from the earliest on, and no more. Rules are taken to be independent of each other.
 */
final class Chances {

    /** Quantile of the standard normal distribution at 0.9: NIST/SEMATECH e-Handbook 1.3.6.7.1. */
    private static final double AT_90 = 1.2815515655446004;

    private static final double TENTH = 0.1;

    /**
     * One rule.
     *
     * @param spreadSeconds standard deviation; 0 for a step
     * @param most how likely it becomes
     */
    private record Rule(Instant middle, double spreadSeconds, double most) {

        double at(Instant when) {
            var after = seconds(middle, when);
            if (spreadSeconds <= 0) {
                return after >= 0 ? most : 0;
            }
            return most * 0.5 * Erf.erfc(-after / spreadSeconds / Math.sqrt(2));
        }
    }

    private final List<Rule> rules;

    private Chances(List<Rule> rules) {
        this.rules = rules;
    }

    static Chances of(DuePreset preset) {
        var rules = new ArrayList<Rule>();
        for (var rule : preset.rules()) {
            switch (rule.sureness()) {
                case FACT, CALENDAR, OWN_USE -> rules.add(new Rule(rule.at(), 0, 1));
                case EXPECTED -> rules.add(expected(preset, rule));
                case EARLIEST_AT_90 -> {
                    if (find(preset, rule.reason(), Sureness.EXPECTED).isEmpty()) {
                        rules.add(new Rule(rule.at(), 0, TENTH));
                    }
                }
            }
        }
        return new Chances(List.copyOf(rules));
    }

    private static Rule expected(DuePreset preset, DueRule expected) {
        var spread = find(preset, expected.reason(), Sureness.EARLIEST_AT_90)
                .map(earliest -> seconds(earliest.at(), expected.at()) / AT_90)
                .orElse(0.0);
        return new Rule(expected.at(), spread, 1);
    }

    private static Optional<DueRule> find(DuePreset preset, DueReason reason, Sureness sureness) {
        return preset.rules().stream()
                .filter(rule -> rule.reason() == reason && rule.sureness() == sureness)
                .findFirst();
    }

    private static double seconds(Instant from, Instant to) {
        return Duration.between(from, to).toMillis() / 1000.0;
    }

    /** From 0 to 1. */
    double at(Instant when) {
        var within = 1.0;
        for (var rule : rules) {
            within *= 1 - rule.at(when);
        }
        return 1 - within;
    }

    /**
     * Expected days beyond tolerance before each day of an axis, from its start on; the last is that of the whole. A day counts
     * by the chance at its middle.
     */
    double[] daysBefore(Axis axis) {
        var sums = new double[axis.days() + 1];
        for (var day = 0; day < axis.days(); day++) {
            sums[day + 1] = sums[day] + at(axis.middle(day));
        }
        return sums;
    }
}
