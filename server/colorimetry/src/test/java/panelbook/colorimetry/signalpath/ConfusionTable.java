package panelbook.colorimetry.signalpath;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.stream.IntStream;
import panelbook.colorimetry.signalpath.SimulatedRamps.Aim;
import panelbook.colorimetry.signalpath.SimulatedRamps.Drawn;

/**
 * How often each explanation is found, and what it is taken for, on simulated ramps. From the project's root:
 *
 * <pre>
 * mvn -o -q -pl server/colorimetry test-compile
 * mvn -o -q -pl server/colorimetry dependency:build-classpath -Dmdep.outputFile=/tmp/classpath
 * java -cp server/colorimetry/target/classes:server/colorimetry/target/test-classes:$(cat /tmp/classpath) \
 *     panelbook.colorimetry.signalpath.ConfusionTable 300 3000
 * </pre>
 *
 * <p>The two numbers are ramps per fault, and ramps as intended, for each target.
 */
public final class ConfusionTable {
    private ConfusionTable() {}

    /**
     * What became of the ramps of one truth.
     *
     * @param total how many
     * @param alike of these, how many cannot be told from another explanation even without noise, by the definition of
     *     {@link Diagnosis#notToldApart}
     * @param right found, of those told apart
     * @param rightOfAll found, of all
     * @param rightOrNamed found, or named among those not told apart, of all
     * @param unexplained no explanation fitted
     * @param takenFor what the others were taken for
     */
    record Row(
            Aim aim,
            Explanation truth,
            int total,
            int alike,
            int right,
            int rightOfAll,
            int rightOrNamed,
            int unexplained,
            Map<String, Integer> takenFor) {
        double share() {
            return total == alike ? 1 : right / (double) (total - alike);
        }
    }

    private record Outcome(boolean alike, boolean named, Explanation found, boolean explained) {}

    static Row row(Aim aim, Explanation truth, int count, long seed) {
        List<Outcome> outcomes = IntStream.range(0, count)
                .parallel()
                .mapToObj(i -> outcome(aim, truth, new Random(seed * 1_000_003 + i)))
                .toList();
        Map<String, Integer> takenFor = new TreeMap<>();
        int alike = 0;
        int right = 0;
        int rightOfAll = 0;
        int rightOrNamed = 0;
        int unexplained = 0;
        for (Outcome o : outcomes) {
            boolean found = o.found().equals(truth);
            alike += o.alike() ? 1 : 0;
            rightOfAll += found ? 1 : 0;
            rightOrNamed += found || o.named() ? 1 : 0;
            right += found && !o.alike() ? 1 : 0;
            unexplained += o.explained() ? 0 : 1;
            if (!found) {
                takenFor.merge(name(o.found()) + (o.alike() ? " (alike)" : ""), 1, Integer::sum);
            }
        }
        return new Row(aim, truth, count, alike, right, rightOfAll, rightOrNamed, unexplained, takenFor);
    }

    private static Outcome outcome(Aim aim, Explanation truth, Random random) {
        Drawn drawn = SimulatedRamps.draw(aim, truth, random);
        Diagnosis noisy = SignalPath.diagnose(drawn.target(), drawn.noisy());
        boolean alike = truth.isFault() && isAlike(truth, SignalPath.diagnose(drawn.target(), drawn.noiseless()));
        return new Outcome(
                alike, noisy.notToldApart().contains(truth), noisy.likeliest().explanation(), noisy.explained());
    }

    private static boolean isAlike(Explanation truth, Diagnosis noiseless) {
        return noiseless.likeliest().explanation().equals(truth)
                ? !noiseless.notToldApart().isEmpty()
                : noiseless.notToldApart().contains(truth);
    }

    static List<Explanation> truths(Aim aim) {
        return Explanation.allFor(SimulatedRamps.draw(aim, Explanation.of(Explanation.Kind.AS_INTENDED), new Random(0))
                .target());
    }

    static String name(Explanation e) {
        String kind = e.kind().name().toLowerCase(Locale.ROOT).replace('_', ' ');
        return e.eotf().map(eotf -> kind + " " + eotf).orElse(kind);
    }

    /**
     * Prints the table.
     *
     * @param args ramps per fault, ramps as intended
     */
    public static void main(String[] args) {
        int faults = args.length > 0 ? Integer.parseInt(args[0]) : 300;
        int intended = args.length > 1 ? Integer.parseInt(args[1]) : 3000;
        List<Row> rows = new ArrayList<>();
        for (Aim aim : Aim.values()) {
            for (Explanation truth : truths(aim)) {
                Row row = row(aim, truth, truth.isFault() ? faults : intended, 1);
                rows.add(row);
                print(aim + " " + name(truth), List.of(row));
            }
        }
        print("all faults", rows.stream().filter(r -> r.truth().isFault()).toList());
        print("all as intended", rows.stream().filter(r -> !r.truth().isFault()).toList());
    }

    private static void print(String name, List<Row> rows) {
        int total = rows.stream().mapToInt(Row::total).sum();
        int alike = rows.stream().mapToInt(Row::alike).sum();
        int right = rows.stream().mapToInt(Row::right).sum();
        int rightOfAll = rows.stream().mapToInt(Row::rightOfAll).sum();
        Map<String, Integer> takenFor = new TreeMap<>();
        rows.forEach(r -> r.takenFor().forEach((as, n) -> takenFor.merge(as, n, Integer::sum)));
        System.out.printf(
                Locale.ROOT,
                "%-36s ramps %6d   alike %5d   right of the told apart %6.2f %%, of all %6.2f %%, of all or named %6.2f %%   unexplained %d   taken for %s%n",
                name,
                total,
                alike,
                total == alike ? 100 : 100.0 * right / (total - alike),
                100.0 * rightOfAll / total,
                100.0 * rows.stream().mapToInt(Row::rightOrNamed).sum() / total,
                rows.stream().mapToInt(Row::unexplained).sum(),
                takenFor);
    }
}
