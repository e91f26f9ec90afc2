package panelbook.demo;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.stream.Stream;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.wire.CertificateEntry;
import panelbook.wire.InstrumentEntry;
import panelbook.wire.InstrumentKind;

/**
 * The facility's meters: what each really does, and what its certificate promises of it. The promise covers the truth.
 * Invented figures.
 */
enum DemoMeter {
    /** Fast; its filters err a little, which its certificate allows for. */
    DISC("Disc meter", InstrumentKind.COLORIMETER, new Instrument(0.08, 0.001, 0.0001, 0.0005, 0.008, 0.0007)),
    /** Slow and true. */
    BENCH(
            "Bench spectro",
            InstrumentKind.SPECTRORADIOMETER,
            new Instrument(-0.03, 0.002, 0.0002, 0.003, 0.005, 0.0004));

    private static final double COVERAGE_FACTOR = 2;
    private static final Duration SINCE_CERTIFICATE = Duration.ofDays(150);

    private final String label;
    private final InstrumentKind kind;
    private final Instrument truth;

    DemoMeter(String label, InstrumentKind kind, Instrument truth) {
        this.label = label;
        this.kind = kind;
        this.truth = truth;
    }

    /** Its name in the book. */
    String label() {
        return label;
    }

    /** What it does. */
    Instrument truth() {
        return truth;
    }

    /** What the book says of it; a certificate was issued well before {@code now} and one in each of the two years before; each holds for a year. */
    InstrumentEntry entry(Instant now) {
        LocalDate last = LocalDate.ofInstant(now.minus(SINCE_CERTIFICATE), ZoneOffset.UTC);
        var certificates = Stream.of(last.minusYears(2), last.minusYears(1), last)
                .map(issued ->
                        new CertificateEntry("QW-" + issued + "-" + (ordinal() + 1), issued, issued.plusYears(1)))
                .toList();
        return new InstrumentEntry(
                label,
                kind,
                "QW-" + (ordinal() + 1),
                100 * COVERAGE_FACTOR * truth.statedLuminance(),
                100 * truth.luminanceNoise(),
                COVERAGE_FACTOR * truth.statedChromaticity(),
                truth.chromaticityNoise(),
                truth.floor(),
                certificates);
    }
}
