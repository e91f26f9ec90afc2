package panelbook.colorimetry.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;

class NormalTest {
    private static final NormalDistribution HIPPARCHUS = new NormalDistribution();

    @Test
    void probabilityIsThatOfTheStatisticsLibraryToTwelveDigits() {
        for (int i = -3700; i <= 1000; i++) {
            double z = i / 100.0;
            double expected = HIPPARCHUS.cumulativeProbability(z);
            assertThat(Normal.probabilityBelow(z)).as("z = %s", z).isCloseTo(expected, within(1e-12 * expected));
        }
    }

    @Test
    void quantileIsThatOfTheStatisticsLibrary() {
        for (int i = 1; i < 1000; i++) {
            double p = i / 1000.0;
            assertThat(Normal.quantile(p))
                    .as("p = %s", p)
                    .isCloseTo(HIPPARCHUS.inverseCumulativeProbability(p), within(1e-11));
        }
        for (double p : new double[] {1e-300, 1e-100, 1e-20, 1e-9, 1 - 1e-9}) {
            assertThat(Normal.probabilityBelow(Normal.quantile(p))).isCloseTo(p, within(1e-12 * p));
        }
    }

    /** JCGM 100:2008, Table G.1: coverage factors of the normal distribution. */
    @Test
    void coverageFactorsAreThoseOfTheGuide() {
        assertThat(Normal.quantile(0.95)).isCloseTo(1.645, within(5e-4));
        assertThat(Normal.quantile(0.975)).isCloseTo(1.960, within(5e-4));
        assertThat(Normal.quantile(0.995)).isCloseTo(2.576, within(5e-4));
    }

    @Test
    void theEndsOfTheLineAreNoSurprise() {
        assertThat(Normal.probabilityBelow(Double.NEGATIVE_INFINITY)).isZero();
        assertThat(Normal.probabilityBelow(Double.POSITIVE_INFINITY)).isEqualTo(1);
        assertThatThrownBy(() -> Normal.quantile(1)).hasMessageContaining("between 0 and 1");
        assertThatThrownBy(() -> Normal.probabilityBelow(Double.NaN)).hasMessage("z must be a number");
    }
}
