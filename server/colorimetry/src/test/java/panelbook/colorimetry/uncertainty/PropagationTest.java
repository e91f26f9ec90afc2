package panelbook.colorimetry.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.XYZ;

class PropagationTest {
    private static final InstrumentUncertainty FIRST =
            new InstrumentUncertainty(0.02, 0.005, 0.002, 0.0004, 0, "first");
    private static final InstrumentUncertainty SECOND =
            new InstrumentUncertainty(0.02, 0.005, 0.002, 0.0004, 0, "second");
    private static final XYZ WHITE = XYZ.of(Chromaticity.D65, 100);

    @Test
    void aDifferenceByOneSourceCarriesItsRepeatabilityTwice() {
        double u = LinearCombination.standardUncertainty(
                List.of(new Term(1, 0.02, 0.005, "a"), new Term(-1, 0.02, 0.005, "a")));
        assertThat(u).isCloseTo(Math.sqrt(2) * 0.005, within(1e-15));
    }

    @Test
    void aDifferenceByTwoSourcesCarriesBothFullUncertainties() {
        double u = LinearCombination.standardUncertainty(
                List.of(new Term(1, 0.02, 0.005, "a"), new Term(-1, 0.03, 0.005, "b")));
        assertThat(u).isCloseTo(Math.hypot(0.02, 0.03), within(1e-15));
    }

    /** The formula worked by hand: (2 + 1)^2 0.3^2 + 2^2 0.4^2 + 0.4^2 with sys = 0.3, s = 0.4, u = 0.5. */
    @Test
    void aSumByOneSourceAddsItsSystematicPartsFirst() {
        double u =
                LinearCombination.standardUncertainty(List.of(new Term(2, 0.5, 0.4, "a"), new Term(1, 0.5, 0.4, "a")));
        assertThat(u * u).isCloseTo(9 * 0.09 + 4 * 0.16 + 0.16, within(1e-12));
    }

    @Test
    void aRepeatabilityAboveTheFullUncertaintyIsRefused() {
        assertThatThrownBy(() -> new InstrumentUncertainty(0.01, 0.02, 0, 0, 0, "a"))
                .hasMessage("luminance repeatability 0.02 must not exceed the full standard uncertainty 0.01, which"
                        + " includes it");
    }

    @Test
    void farFromZeroADistanceCarriesTheUncertaintyAlongItsDirection() {
        UV1976 uv = WHITE.uv1976().orElseThrow();
        XYZ moved = XYZ.of(new UV1976(uv.u() + 0.05, uv.v()), 100);
        Estimate sameSource = Propagation.uv1976(new Measured(WHITE, FIRST), new Measured(moved, FIRST));
        Estimate twoSources = Propagation.uv1976(new Measured(WHITE, FIRST), new Measured(moved, SECOND));
        assertThat(sameSource.value()).isCloseTo(0.05, within(1e-12));
        assertThat(sameSource.standardUncertainty()).isCloseTo(Math.sqrt(2) * 0.0004, within(1e-5));
        assertThat(twoSources.standardUncertainty()).isCloseTo(Math.sqrt(2) * 0.002, within(1e-4));
    }

    @Test
    void equalColoursStillHaveAnUncertainDistance() {
        Estimate none = Propagation.uv1976(new Measured(WHITE, FIRST), new Measured(WHITE, FIRST));
        assertThat(none.value()).isZero();
        // two coordinates of two readings, in squares
        assertThat(none.standardUncertainty()).isCloseTo(2 * 0.0004, within(1e-9));
    }

    /** JCGM 101:2008: a Monte Carlo draw; in between, where up and down differ most, the shortcut is up to an eighth low. */
    @ParameterizedTest(name = "true distance {0} repeatabilities")
    @ValueSource(doubles = {0, 0.5, 1, 2, 5, 20})
    void isAsUncertainAsADrawOfNoisyReadings(double distance) {
        InstrumentUncertainty u = new InstrumentUncertainty(0.005, 0.005, 0.0004, 0.0004, 0, "a");
        UV1976 uv = WHITE.uv1976().orElseThrow();
        XYZ moved = XYZ.of(new UV1976(uv.u(), uv.v() + distance * 0.0004), 100);
        Random random = new Random(4711);
        double[] itp = IntStream.range(0, 20000)
                .mapToDouble(i -> ColourDifference.itp(noisy(WHITE, u, random), noisy(moved, u, random)))
                .toArray();
        double truth = ColourDifference.itp(WHITE, moved);
        double rootMeanSquare = Math.sqrt(IntStream.range(0, itp.length)
                .mapToDouble(i -> (itp[i] - truth) * (itp[i] - truth))
                .average()
                .orElseThrow());
        double stated =
                Propagation.itp(new Measured(WHITE, u), new Measured(moved, u)).standardUncertainty();
        assertThat(stated)
                .isBetween(rootMeanSquare * (distance > 0 && distance < 5 ? 0.875 : 0.97), rootMeanSquare * 1.1);
    }

    @Test
    void everyDifferenceIsMoreCertainByOneSourceThanByTwo() {
        XYZ other = new XYZ(96, 102, 108);
        Measured a = new Measured(WHITE, FIRST);
        assertThat(Propagation.itp(a, new Measured(other, FIRST)).standardUncertainty())
                .isLessThan(Propagation.itp(a, new Measured(other, SECOND)).standardUncertainty());
        assertThat(Propagation.ciede2000(a, new Measured(other, FIRST), WHITE).standardUncertainty())
                .isLessThan(Propagation.ciede2000(a, new Measured(other, SECOND), WHITE)
                        .standardUncertainty());
    }

    @Test
    void theFloorGivesBlackAnUncertainty() {
        InstrumentUncertainty u = new InstrumentUncertainty(0.02, 0.005, 0.002, 0.0004, 0.001, "a");
        Estimate black = Propagation.of(List.of(new Measured(XYZ.BLACK, u)), c -> c[0].y());
        assertThat(black.standardUncertainty()).isCloseTo(0.001, within(1e-15));
    }

    private static XYZ noisy(XYZ c, InstrumentUncertainty u, Random random) {
        UV1976 uv = c.uv1976().orElseThrow();
        return XYZ.of(
                new UV1976(
                        uv.u() + u.chromaticityRepeatability() * random.nextGaussian(),
                        uv.v() + u.chromaticityRepeatability() * random.nextGaussian()),
                c.y() * (1 + u.luminanceRepeatability() * random.nextGaussian()));
    }
}
