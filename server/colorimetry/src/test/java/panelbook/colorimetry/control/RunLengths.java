package panelbook.colorimetry.control;

import java.util.Locale;
import java.util.Optional;
import java.util.Random;

/**
 * Average run lengths by the Markov chain and by simulation, and how often a step is told and dated. From the project's
 * root:
 *
 * <pre>
 * mvn -o -q -pl server/colorimetry test-compile
 * mvn -o -q -pl server/colorimetry dependency:build-classpath -Dmdep.outputFile=/tmp/classpath
 * java -cp server/colorimetry/target/classes:server/colorimetry/target/test-classes:$(cat /tmp/classpath) \
 *     panelbook.colorimetry.control.RunLengths 20000
 * </pre>
 */
public final class RunLengths {
    private static final double NOISE = 0.003;
    private static final int BEFORE = 24;
    private static final int AFTER = 12;

    private RunLengths() {}

    /**
     * A simulated run length.
     *
     * @param mean figures until the signal
     * @param error standard error of the mean
     */
    record Simulated(double mean, double error) {}

    static Simulated simulate(double lambda, double width, double shift, int runs, Random random) {
        double limit = EwmaChart.reach(lambda, width);
        double sum = 0;
        double squares = 0;
        for (int r = 0; r < runs; r++) {
            double average = 0;
            int length = 0;
            while (Math.abs(average) <= limit) {
                average = lambda * (shift + random.nextGaussian()) + (1 - lambda) * average;
                length++;
            }
            sum += length;
            squares += (double) length * length;
        }
        double mean = sum / runs;
        return new Simulated(mean, Math.sqrt((squares / runs - mean * mean) / runs));
    }

    /**
     * Steps of panels that age, after 24 runs.
     *
     * @param early share of panels with an alarm before the step
     * @param found share with an alarm within the 12 runs after
     * @param dated share of these whose place is right to a run
     * @param runs mean number of runs until the alarm
     */
    record Steps(double early, double found, double dated, double runs) {}

    static Steps steps(int panels, double size) {
        int early = 0;
        int found = 0;
        int dated = 0;
        int runs = 0;
        for (int panel = 0; panel < panels; panel++) {
            Optional<StepWatch.Step> step = step(new Random(panel * 0x9E3779B97F4A7C15L + 1), size);
            boolean before = step.filter(s -> s.signalled() < BEFORE).isPresent();
            early += before ? 1 : 0;
            if (step.isPresent() && !before) {
                found++;
                dated += Math.abs(step.get().firstAfter() - BEFORE) <= 1 ? 1 : 0;
                runs += step.get().signalled() - BEFORE + 1;
            }
        }
        return new Steps(
                early / (double) panels, found / (double) panels, dated / (double) found, runs / (double) found);
    }

    private static Optional<StepWatch.Step> step(Random random, double size) {
        double[] hours = new double[BEFORE + AFTER];
        double[] figures = new double[BEFORE + AFTER];
        for (int i = 0; i < hours.length; i++) {
            hours[i] = 1000 + 70 * i;
            figures[i] = 5.7 - 1e-5 * hours[i] + NOISE * (random.nextGaussian() + (i >= BEFORE ? size : 0));
        }
        return StepWatch.firstStep(hours, figures);
    }

    /**
     * Prints the tables.
     *
     * @param args how many charts of each kind
     */
    public static void main(String[] args) {
        int charts = args.length > 0 ? Integer.parseInt(args[0]) : 20_000;
        System.out.println("| shift, standard deviations | average run length by the chain | simulated |");
        System.out.println("|---|---|---|");
        for (double shift : new double[] {0, 0.5, 1, 2, 3, 4}) {
            Simulated s = simulate(StepWatch.LAMBDA, StepWatch.WIDTH, shift, charts, new Random(11));
            System.out.printf(
                    Locale.ROOT,
                    "| %.1f | %.2f | %.2f +- %.2f |%n",
                    shift,
                    RunLength.average(StepWatch.LAMBDA, StepWatch.WIDTH, shift),
                    s.mean(),
                    s.error());
        }
        System.out.println();
        System.out.println("| step, standard deviations | alarm before, % | found within 12 runs, % | dated to a run, %"
                + " | runs until the alarm |");
        System.out.println("|---|---|---|---|---|");
        for (double size : new double[] {2, 3, 4, 6}) {
            Steps s = steps(charts / 5, size);
            System.out.printf(
                    Locale.ROOT,
                    "| %.0f | %.1f | %.1f | %.1f | %.1f |%n",
                    size,
                    100 * s.early(),
                    100 * s.found(),
                    100 * s.dated(),
                    s.runs());
        }
    }
}
