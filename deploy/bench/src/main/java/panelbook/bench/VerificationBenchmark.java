package panelbook.bench;

import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Level;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Param;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import org.openjdk.jmh.infra.Blackhole;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Patches;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.SimulatedDisplay;
import panelbook.colorimetry.verification.Verification;

/** Verifications of whole runs a second on one core, every figure asked for. */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.Throughput)
@OutputTimeUnit(TimeUnit.SECONDS)
@Fork(2)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
public class VerificationBenchmark {
    private static final Target TARGET = new Target(
            RgbSpace.P3_D65, new Eotf.Pq(), new CodeValues(SignalRange.FULL, 10), new LuminanceRange(0.0005, 1000));

    /** Readings of the run. */
    @Param({"69", "2000"})
    int patches;

    private List<Reading> run = List.of();

    /** Measures a simulated emissive panel. */
    @Setup(Level.Trial)
    public void measure() {
        Random random = new Random(431);
        run = SimulatedDisplay.builder(Primaries.emissive())
                .build()
                .measure(TARGET, Patches.many(TARGET.codes(), patches, random), 0, Instrument.COLORIMETER, random);
    }

    /** Verifies it. */
    @Benchmark
    public void verify(Blackhole sink) {
        Verification verification = Verification.of(TARGET, run);
        sink.consume(verification.deltaEItp());
        sink.consume(verification.deltaE2000());
        sink.consume(verification.luminanceErrorPercent());
        sink.consume(verification.deltaUv());
        sink.consume(verification.greyTracking());
        sink.consume(verification.whiteLuminanceErrorPercent());
        sink.consume(verification.whiteDeltaUv());
        sink.consume(verification.contrast());
        sink.consume(verification.gamutCoverage());
    }
}
