package panelbook.colorimetry.trim;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.uncertainty.Measured;

/**
 * What one display's own trials say of a click: estimate and its standard deviation.
 *
 * <p>Trials of one control that follow each other share the readings between them, whose noise enters one as after and
 * the other as before. So each such chain is one regression of its readings on the clicks so far, with a free start;
 * chains are then joined by their weights.
 */
record Slope(double value, double standardDeviation, int trials) {
    /** Three times the instrument's floor is the usual limit of detection, common practice: below it a logarithm is noise. */
    private static final double DETECTION = 3;

    /** A noise of nothing would make weights infinite. */
    private static final double LEAST_NOISE = 1e-7;

    static Map<Click, Slope> all(List<Trial> inOrder) {
        Map<Click, List<Slope>> byClick = new HashMap<>();
        for (List<Trial> chain : chains(inOrder)) {
            ofChain(chain)
                    .forEach((click, slope) -> byClick.computeIfAbsent(click, c -> new ArrayList<>())
                            .add(slope));
        }
        Map<Click, Slope> all = new HashMap<>();
        byClick.forEach((click, slopes) -> all.put(click, joined(slopes)));
        return all;
    }

    private static List<List<Trial>> chains(List<Trial> inOrder) {
        List<List<Trial>> chains = new ArrayList<>();
        Trial last = null;
        for (Trial t : inOrder) {
            boolean goesOn = last != null
                    && last.control().equals(t.control())
                    && last.after().key().equals(t.before().key());
            if (!goesOn) {
                chains.add(new ArrayList<>());
            }
            chains.get(chains.size() - 1).add(t);
            last = t;
        }
        return chains;
    }

    private static Map<Click, Slope> ofChain(List<Trial> chain) {
        Map<Click, Slope> slopes = new HashMap<>();
        for (Reading r : chain.get(0).before().run().readings().greys()) {
            List<Measured> along = along(chain, r);
            if (along.size() == chain.size() + 1) {
                double signal = chain.get(0)
                        .before()
                        .run()
                        .readings()
                        .codes()
                        .toSignal(r.patch().red());
                if (signal > -0.005 && signal < 1.005) {
                    for (Figure figure : Figure.values()) {
                        Click click = new Click(chain.get(0).control(), GreyLevel.of(signal), figure);
                        regression(chain, along, figure).ifPresent(s -> slopes.put(click, s));
                    }
                }
            }
        }
        return slopes;
    }

    /** The same grey in all runs of a chain, as far as they hold it with light enough. */
    private static List<Measured> along(List<Trial> chain, Reading first) {
        var codes = chain.get(0).before().run().readings().codes();
        List<KeyedRun> runs = new ArrayList<>();
        runs.add(chain.get(0).before());
        chain.forEach(t -> runs.add(t.after()));
        List<Measured> along = new ArrayList<>();
        for (KeyedRun run : runs) {
            run.run()
                    .readings()
                    .atLevelOf(first.patch(), codes)
                    .map(r -> new Measured(r.xyz(), run.run().uncertainty()))
                    .filter(Slope::isLit)
                    .ifPresent(along::add);
        }
        return along;
    }

    private static boolean isLit(Measured m) {
        return m.xyz().y() > DETECTION * m.uncertainty().luminanceFloor()
                && m.xyz().hasChromaticity();
    }

    /** Weighted straight line through figure over clicks so far; empty when the clicks never moved. */
    private static Optional<Slope> regression(List<Trial> chain, List<Measured> along, Figure figure) {
        double position = 0;
        double sumW = 0;
        double sumX = 0;
        double sumY = 0;
        double sumXx = 0;
        double sumXy = 0;
        for (int i = 0; i < along.size(); i++) {
            position += i == 0 ? 0 : chain.get(i - 1).clicks();
            double noise = Math.max(figure.noise(along.get(i)), LEAST_NOISE);
            double w = 1 / (noise * noise);
            double y = figure.value(along.get(i));
            sumW += w;
            sumX += w * position;
            sumY += w * y;
            sumXx += w * position * position;
            sumXy += w * position * y;
        }
        double spread = sumXx - sumX * sumX / sumW;
        if (spread <= 1e-9 * sumW) {
            return Optional.empty();
        }
        double slope = (sumXy - sumX * sumY / sumW) / spread;
        return Optional.of(new Slope(slope, 1 / Math.sqrt(spread), chain.size()));
    }

    private static Slope joined(List<Slope> slopes) {
        double weights = 0;
        double sum = 0;
        int trials = 0;
        for (Slope s : slopes) {
            double w = 1 / (s.standardDeviation() * s.standardDeviation());
            weights += w;
            sum += w * s.value();
            trials += s.trials();
        }
        return new Slope(sum / weights, 1 / Math.sqrt(weights), trials);
    }
}
