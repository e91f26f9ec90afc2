package panelbook.colorimetry.trim;

import panelbook.colorimetry.uncertainty.Measured;
import panelbook.colorimetry.uncertainty.Term;

/** What is followed of a grey. */
public enum Figure {
    /** u' of CIE 1976. */
    U(0.0006) {
        @Override
        double value(Measured m) {
            return m.xyz().uv1976().orElseThrow().u();
        }

        @Override
        double noise(Measured m) {
            return random(m.uncertainty().ofChromaticity(1));
        }
    },
    /** v' of CIE 1976. */
    V(0.0006) {
        @Override
        double value(Measured m) {
            return m.xyz().uv1976().orElseThrow().v();
        }

        @Override
        double noise(Measured m) {
            return random(m.uncertainty().ofChromaticity(1));
        }
    },
    /** Natural logarithm of the luminance in cd/m2. */
    LN_LUMINANCE(0.004) {
        @Override
        double value(Measured m) {
            return Math.log(m.xyz().y());
        }

        @Override
        double noise(Measured m) {
            return random(m.uncertainty().ofLogLuminance(1, m.xyz().y()));
        }
    };

    private final double spread;

    Figure(double spread) {
        this.spread = spread;
    }

    /**
     * How far the effect of a click may differ between displays of a model: the scale of the prior of that spread. House
     * rule, no published source; a few displays outweigh it.
     *
     * @return in the figure's unit per click
     */
    public double spread() {
        return spread;
    }

    abstract double value(Measured m);

    private static double random(Term term) {
        return term.coefficient() * term.repeatability();
    }

    /** Standard deviation of a single reading when repeated. */
    abstract double noise(Measured m);
}
