package panelbook.colorimetry.simulation;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Patch;

/** Lists of patches as a calibrator measures them. */
public final class Patches {
    private Patches() {}

    /**
     * Greys in equal steps of signal.
     *
     * @param codes range and bit depth
     * @param steps from black to white, at least 1
     * @return steps + 1 greys, black first
     */
    public static List<Patch> greys(CodeValues codes, int steps) {
        List<Patch> patches = new ArrayList<>();
        for (int i = 0; i <= steps; i++) {
            patches.add(Patch.grey(codes.toCode(i / (double) steps)));
        }
        return patches;
    }

    /**
     * Black to white, the primaries and their mixtures in pairs, at full and at half signal.
     *
     * @param codes range and bit depth
     * @param greySteps from black to white, at least 1
     * @return patches, none twice
     */
    public static List<Patch> check(CodeValues codes, int greySteps) {
        Set<Patch> patches = new LinkedHashSet<>(greys(codes, greySteps));
        for (double level : new double[] {1, 0.5}) {
            int on = codes.toCode(level);
            int off = codes.black();
            for (int mix = 1; mix < 7; mix++) {
                patches.add(new Patch((mix & 1) > 0 ? on : off, (mix & 2) > 0 ? on : off, (mix & 4) > 0 ? on : off));
            }
        }
        return List.copyOf(patches);
    }

    /**
     * A check and as many colours at random as are still wanted.
     *
     * @param codes range and bit depth
     * @param count how many patches in all, at least 40
     * @param random source of the colours
     * @return patches, none twice
     */
    public static List<Patch> many(CodeValues codes, int count, Random random) {
        Set<Patch> patches = new LinkedHashSet<>(check(codes, 20));
        while (patches.size() < count) {
            patches.add(new Patch(anyCode(codes, random), anyCode(codes, random), anyCode(codes, random)));
        }
        return List.copyOf(patches);
    }

    private static int anyCode(CodeValues codes, Random random) {
        return codes.black() + random.nextInt(codes.white() - codes.black() + 1);
    }
}
