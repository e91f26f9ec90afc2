package panelbook.demo;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.simulation.Patches;
import panelbook.wire.EotfKind;
import panelbook.wire.Primaries;
import panelbook.wire.SignalRange;
import panelbook.wire.TargetEntry;

/** The facility's targets, in the words of the library and of the book, and the patches that are measured on each. */
enum DemoTarget {
    /** The set of tolerances is one that comes with the book. */
    HDR("P3-D65 PQ 1000", RgbSpace.P3_D65, EotfKind.PQ, SignalRange.FULL, 1000, 0.0001, "HDR grading"),
    SDR("BT.709 BT.1886 100", RgbSpace.BT_709, EotfKind.BT1886, SignalRange.NARROW, 100, 0.05, "SDR grading"),
    LOUNGE("BT.709 BT.1886 180", RgbSpace.BT_709, EotfKind.BT1886, SignalRange.NARROW, 180, 0.05, "Lounge");

    private static final int BITS = 10;
    private static final int GREY_STEPS = 20;
    private static final int COLOURS = 36;
    private static final long COLOUR_SEED = 20;

    private final String label;
    private final RgbSpace space;
    private final EotfKind eotf;
    private final SignalRange range;
    private final double peak;
    private final double black;
    private final String toleranceSet;

    DemoTarget(
            String label,
            RgbSpace space,
            EotfKind eotf,
            SignalRange range,
            double peak,
            double black,
            String toleranceSet) {
        this.label = label;
        this.space = space;
        this.eotf = eotf;
        this.range = range;
        this.peak = peak;
        this.black = black;
        this.toleranceSet = toleranceSet;
    }

    /** Its name in the book. */
    String label() {
        return label;
    }

    /** Peak luminance aim, cd/m2. */
    double peak() {
        return peak;
    }

    Target colorimetric() {
        return new Target(space, eotf(), codes(), new LuminanceRange(black, peak));
    }

    TargetEntry entry() {
        Chromaticity red = space.red();
        Chromaticity green = space.green();
        Chromaticity blue = space.blue();
        Chromaticity white = space.white();
        Primaries primaries =
                new Primaries(red.x(), red.y(), green.x(), green.y(), blue.x(), blue.y(), white.x(), white.y());
        return new TargetEntry(label, primaries, eotf, null, range, BITS, peak, black, toleranceSet);
    }

    /** Greys, primaries and secondaries at two levels, and colours, all within the peak; none twice. */
    List<Patch> patches() {
        Set<Patch> patches = new LinkedHashSet<>(Patches.greys(codes(), GREY_STEPS));
        for (double level : new double[] {highestSignal(), highestSignal() / 2}) {
            patches.addAll(primariesAndSecondaries(codes().toCode(level)));
        }
        Random random = new Random(COLOUR_SEED);
        int before = patches.size();
        while (patches.size() < before + COLOURS) {
            patches.add(new Patch(below(random), below(random), below(random)));
        }
        return List.copyOf(patches);
    }

    private List<Patch> primariesAndSecondaries(int on) {
        int off = codes().black();
        return List.of(
                new Patch(on, off, off),
                new Patch(off, on, off),
                new Patch(off, off, on),
                new Patch(on, on, off),
                new Patch(on, off, on),
                new Patch(off, on, on));
    }

    private int below(Random random) {
        return codes().toCode(highestSignal() * random.nextDouble());
    }

    /** PQ asks for 10,000 cd/m2 at full signal: colours are kept to what the display can show. */
    private double highestSignal() {
        return eotf == EotfKind.PQ ? 0.7 : 1;
    }

    private CodeValues codes() {
        return new CodeValues(
                range == SignalRange.FULL
                        ? panelbook.colorimetry.signal.SignalRange.FULL
                        : panelbook.colorimetry.signal.SignalRange.NARROW,
                BITS);
    }

    private Eotf eotf() {
        return eotf == EotfKind.PQ ? new Eotf.Pq() : new Eotf.Bt1886();
    }
}
