package panelbook.colorimetry.trim;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Random;
import java.util.function.ToDoubleFunction;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.TrimmedDisplay;
import panelbook.colorimetry.trim.ControlRange.Kind;
import panelbook.colorimetry.uncertainty.Measured;

/**
 * How many trims it takes until the white is where it should be: by suggestion, and by a plain proportional rule that
 * turns, after each reading, the control of the figure that is furthest off (red for u', blue for v', green for
 * luminance) by what the model's mean effect of that control on that figure says. From the project's root:
 *
 * <pre>
 * mvn -o -q -pl server/colorimetry test-compile
 * mvn -o -q -pl server/colorimetry dependency:build-classpath -Dmdep.outputFile=/tmp/classpath
 * java -cp server/colorimetry/target/classes:server/colorimetry/target/test-classes:$(cat /tmp/classpath) \
 *     panelbook.colorimetry.trim.StepsToMatch 500 0.5
 * </pre>
 */
public final class StepsToMatch {
    private static final Tolerances TOLERANCES = Tolerances.DEFAULT;
    private static final int MOST_TRIMS = 40;

    private StepsToMatch() {}

    /**
     * One way to the match.
     *
     * @param trims controls turned until the true distance was within the distance asked for; {@link #MOST_TRIMS} when never
     * @param readings taken until then
     * @param rest true distance at the end, in tolerances
     */
    record Way(int trims, int readings, double rest) {}

    /**
     * Both ways from the same start.
     *
     * @param suggested by suggestion
     * @param proportional by the rule, a trim after each reading
     */
    record Pair(Way suggested, Way proportional) {}

    static Pair pair(long seed, double near) {
        Random random = new Random(seed);
        List<List<Trial>> model = new ArrayList<>();
        for (int d = 0; d < 4; d++) {
            model.add(ClickEffectsTest.worked(random).trials());
        }
        TrimmedDisplay display = ClickEffectsTest.model(random);
        // the aim lies within reach, but on no whole click
        TrimmedDisplay aim = display;
        for (int channel = 0; channel < 3; channel++) {
            aim = aim.gain(channel, -10 * random.nextDouble());
        }
        double[] desired = white(aim, Instrument.PERFECT, random);
        long noise = random.nextLong();
        return new Pair(
                suggested(new Bench(display, Instrument.COLORIMETER, new Random(noise)), model, desired, near),
                proportional(new Bench(display, Instrument.COLORIMETER, new Random(noise)), model, desired, near));
    }

    private static Way suggested(Bench bench, List<List<Trial>> model, double[] desired, double near) {
        int[] settings = new int[3];
        int trims = 0;
        int readings = 1;
        while (trims < MOST_TRIMS && distance(bench, desired) > near) {
            TrimSuggestion s = TrimSuggester.suggest(
                    ClickEffects.of(bench.trials(), model),
                    ranges(settings),
                    List.of(wanted(bench, desired)),
                    TOLERANCES,
                    Optional.empty());
            if (s.isNothingToDo()) {
                return new Way(MOST_TRIMS, readings, distance(bench, desired));
            }
            // one control after the other, each with a reading, so that the next suggestion knows more
            for (int channel = 0; channel < 3 && distance(bench, desired) > near; channel++) {
                int clicks = s.clicks().get(Bench.GAINS.get(channel));
                if (clicks != 0) {
                    bench.turn(Bench.GAINS.get(channel), clicks);
                    settings[channel] += clicks;
                    trims++;
                    readings++;
                }
            }
        }
        return new Way(trims, readings, distance(bench, desired));
    }

    private static Way proportional(Bench bench, List<List<Trial>> model, double[] desired, double near) {
        ClickEffects mean = ClickEffects.of(List.of(), model);
        int[] channelOf = {0, 2, 1};
        int[] settings = new int[3];
        int trims = 0;
        while (trims < MOST_TRIMS && distance(bench, desired) > near) {
            Wanted wanted = wanted(bench, desired);
            Figure furthest = Arrays.stream(Figure.values())
                    .max(Comparator.comparingDouble(f -> Math.abs(wanted.of(f)) / TOLERANCES.of(f)))
                    .orElseThrow();
            int channel = channelOf[furthest.ordinal()];
            double perClick = mean.of(Bench.GAINS.get(channel), GreyLevel.WHITE, furthest)
                    .orElseThrow()
                    .perClick()
                    .value();
            int clicks = (int) Math.rint(wanted.of(furthest) / perClick);
            clicks = clicks == 0 ? (int) Math.signum(wanted.of(furthest) / perClick) : clicks;
            clicks = Math.min(clicks, 1 - settings[channel]);
            bench.turn(Bench.GAINS.get(channel), clicks);
            settings[channel] += clicks;
            trims++;
        }
        return new Way(trims, trims + 1, distance(bench, desired));
    }

    private static List<ControlRange> ranges(int[] settings) {
        List<ControlRange> ranges = new ArrayList<>();
        for (int channel = 0; channel < 3; channel++) {
            ranges.add(new ControlRange(Bench.GAINS.get(channel), Kind.GAIN, settings[channel], -60, 60));
        }
        return ranges;
    }

    private static Wanted wanted(Bench bench, double[] desired) {
        double[] now = figures(bench.last().run());
        return new Wanted(GreyLevel.WHITE, desired[0] - now[0], desired[1] - now[1], desired[2] - now[2]);
    }

    /** True distance, in tolerances. */
    private static double distance(Bench bench, double[] desired) {
        double[] now = white(bench.display(), Instrument.PERFECT, new Random(1));
        double sum = 0;
        for (Figure f : Figure.values()) {
            double off = (desired[f.ordinal()] - now[f.ordinal()]) / TOLERANCES.of(f);
            sum += off * off;
        }
        return Math.sqrt(sum);
    }

    private static double[] white(TrimmedDisplay display, Instrument meter, Random random) {
        // the meters' filters differ; what is wanted is told apart from that by reading with the same filters
        Instrument noiseless = new Instrument(Instrument.COLORIMETER.filterShiftNm(), 0, 0, 0, 0.01, 0.002);
        List<Reading> readings =
                display.measure(Bench.CODES, Bench.GREYS, meter.equals(Instrument.PERFECT) ? noiseless : meter, random);
        return figures(Bench.run(readings, noiseless));
    }

    private static double[] figures(MeasuredRun run) {
        Measured white = new Measured(run.readings().white().orElseThrow().xyz(), run.uncertainty());
        double[] figures = new double[3];
        for (Figure f : Figure.values()) {
            figures[f.ordinal()] = f.value(white);
        }
        return figures;
    }

    static double median(List<Pair> pairs, ToDoubleFunction<Pair> figure) {
        double[] sorted = pairs.stream().mapToDouble(figure).sorted().toArray();
        return sorted[sorted.length / 2];
    }

    static List<Pair> pairs(int count, double near) {
        List<Pair> pairs = new ArrayList<>();
        for (int seed = 1; seed <= count; seed++) {
            pairs.add(pair(seed, near));
        }
        return pairs;
    }

    /**
     * Prints the comparison.
     *
     * @param args how many matches, and the distance in tolerances to be reached
     */
    public static void main(String[] args) {
        List<Pair> pairs = pairs(
                args.length > 0 ? Integer.parseInt(args[0]) : 500, args.length > 1 ? Double.parseDouble(args[1]) : 0.5);
        System.out.printf(
                Locale.ROOT,
                "%d matches. Median trims: suggested %.0f, proportional %.0f (mean %.1f, %.1f);"
                        + " never there: suggested %d, proportional %d%n",
                pairs.size(),
                median(pairs, p -> p.suggested().trims()),
                median(pairs, p -> p.proportional().trims()),
                pairs.stream().mapToInt(p -> p.suggested().trims()).average().orElseThrow(),
                pairs.stream().mapToInt(p -> p.proportional().trims()).average().orElseThrow(),
                pairs.stream().filter(p -> p.suggested().trims() >= MOST_TRIMS).count(),
                pairs.stream()
                        .filter(p -> p.proportional().trims() >= MOST_TRIMS)
                        .count());
        System.out.printf(
                Locale.ROOT,
                "Median readings: suggested %.0f, proportional %.0f%n",
                median(pairs, p -> p.suggested().readings()),
                median(pairs, p -> p.proportional().readings()));
        System.out.printf(
                Locale.ROOT,
                "Median of the ratio suggested / proportional: %.2f%n",
                median(
                        pairs,
                        p -> p.suggested().trims()
                                / (double) Math.max(p.proportional().trims(), 1)));
    }
}
