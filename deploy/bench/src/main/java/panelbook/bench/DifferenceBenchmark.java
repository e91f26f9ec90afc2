package panelbook.bench;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.XYZ;

/** Colour differences a second on one core. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(2)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class DifferenceBenchmark {
    private static final int PAIRS = 1024;

    private final XYZ[] colours = new XYZ[PAIRS];
    private final XYZ[] others = new XYZ[PAIRS];

    /** Makes colours of 0.01 to 1000 cd/m2 and a neighbour of each. */
    public DifferenceBenchmark() {
        Random random = new Random(2124);
        for (int i = 0; i < PAIRS; i++) {
            double y = Math.pow(10, -2 + 5 * random.nextDouble());
            colours[i] = new XYZ(y * (0.6 + 0.6 * random.nextDouble()), y, y * (0.5 + random.nextDouble()));
            others[i] = colours[i].times(0.97 + 0.06 * random.nextDouble());
        }
    }

    /**
     * Delta E ITP of pairs of XYZ.
     *
     * @return the sum, so that nothing can be left out
     */
    @Benchmark
    @OperationsPerInvocation(PAIRS)
    public double deltaEItp() {
        double sum = 0;
        for (int i = 0; i < PAIRS; i++) {
            sum += ColourDifference.itp(colours[i], others[i]);
        }
        return sum;
    }
}
