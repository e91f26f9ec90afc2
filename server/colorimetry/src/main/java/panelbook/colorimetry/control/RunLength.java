package panelbook.colorimetry.control;

import org.hipparchus.linear.Array2DRowRealMatrix;
import org.hipparchus.linear.ArrayRealVector;
import org.hipparchus.linear.LUDecomposition;
import org.hipparchus.linear.RealMatrix;
import panelbook.colorimetry.Require;
import panelbook.colorimetry.uncertainty.Normal;

/** How many figures a chart sees, on average, until it signals. */
public final class RunLength {
    /** Odd, so that the average starts in the middle of a state; 201 give four digits. */
    private static final int STATES = 201;

    private RunLength() {}

    /**
     * The average run length of {@link EwmaChart} on independent normal figures.
     *
     * @param lambda share of the newest figure, above 0 to 1
     * @param width limits in standard deviations of the average, greater than zero
     * @param shift of the mean off the target from the first figure on, in standard deviations of one figure; 0 in control
     * @return figures until the signal, the signalling one included; at least 1. Source: the Markov-chain method of Brook
     *     and Evans, Biometrika 59 (1972) 539, as Lucas and Saccucci, Technometrics 32 (1990) 1, apply it
     */
    public static double average(double lambda, double width, double shift) {
        EwmaChart.checkLambda(lambda);
        double reach = EwmaChart.reach(lambda, Require.positive("width", width));
        Require.finite("shift", shift);
        double state = 2 * reach / STATES;
        RealMatrix stays = new Array2DRowRealMatrix(STATES, STATES);
        for (int i = 0; i < STATES; i++) {
            double from = (1 - lambda) * (-reach + (i + 0.5) * state);
            for (int j = 0; j < STATES; j++) {
                double low = (-reach + j * state - from) / lambda - shift;
                double chance = Normal.probabilityBelow(low + state / lambda) - Normal.probabilityBelow(low);
                stays.setEntry(i, j, (i == j ? 1 : 0) - chance);
            }
        }
        return new LUDecomposition(stays)
                .getSolver()
                .solve(new ArrayRealVector(STATES, 1.0))
                .getEntry(STATES / 2);
    }
}
