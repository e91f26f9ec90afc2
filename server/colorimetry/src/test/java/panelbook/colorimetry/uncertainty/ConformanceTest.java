package panelbook.colorimetry.uncertainty;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static panelbook.colorimetry.uncertainty.Decision.BEYOND;
import static panelbook.colorimetry.uncertainty.Decision.UNDECIDED;
import static panelbook.colorimetry.uncertainty.Decision.WITHIN;

import java.util.Random;
import java.util.stream.LongStream;
import org.hipparchus.distribution.continuous.NormalDistribution;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ConformanceTest {
    static LongStream seeds() {
        return LongStream.rangeClosed(1, 300);
    }

    /** JCGM 106:2012, 7.3 and 7.4: the mass of the normal distribution between the limits. */
    @ParameterizedTest
    @MethodSource("seeds")
    void probabilityIsTheMassBetweenTheLimits(long seed) {
        Random random = new Random(seed);
        Estimate y = new Estimate(10 * random.nextGaussian(), 0.1 + 3 * random.nextDouble());
        double low = 10 * random.nextGaussian();
        double high = low + 10 * random.nextDouble();
        NormalDistribution d = new NormalDistribution(y.value(), y.standardUncertainty());
        assertThat(Conformance.probability(y, new Limits(low, high)))
                .isCloseTo(d.cumulativeProbability(high) - d.cumulativeProbability(low), within(1e-12));
        assertThat(Conformance.probability(y, Limits.atMost(high)))
                .isCloseTo(d.cumulativeProbability(high), within(1e-12));
        assertThat(Conformance.probability(y, Limits.atLeast(low)))
                .isCloseTo(1 - d.cumulativeProbability(low), within(1e-12));
    }

    /** JCGM 106:2012, 8.3.2: w = 1.645 u for 95 %. A limit of 10 and u = 1. */
    @ParameterizedTest
    @CsvSource({"8.35, WITHIN", "8.36, UNDECIDED", "10, UNDECIDED", "11.64, UNDECIDED", "11.65, BEYOND"})
    void guardBandsOnBothSidesOfALimitKeepTheUndecided(double value, Decision decision) {
        assertThat(Conformance.decide(new Estimate(value, 1), Limits.atMost(10)))
                .isEqualTo(decision);
        assertThat(Conformance.decide(new Estimate(-value, 1), Limits.atLeast(-10)))
                .isEqualTo(decision);
        assertThat(Conformance.guardBand(1, 0.95)).isCloseTo(1.645, within(5e-4));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void aDecisionKeepsItsPromisedProbability(long seed) {
        Random random = new Random(seed);
        double asked = 0.5 + 0.499 * random.nextDouble();
        Limits limits = Limits.within(5 * random.nextDouble());
        Estimate y = new Estimate(6 * random.nextDouble(), 2 * random.nextDouble());
        double probability = Conformance.probability(y, limits);
        switch (Conformance.decide(y, limits, asked)) {
            case WITHIN -> assertThat(probability).isGreaterThanOrEqualTo(asked - 1e-12);
            case BEYOND -> assertThat(probability).isLessThanOrEqualTo(1 - asked + 1e-12);
            case UNDECIDED -> assertThat(probability).isLessThan(asked + 1e-12);
        }
    }

    @Test
    void aLimitNarrowerThanTheUncertaintyNeverGivesWithin() {
        assertThat(Conformance.decide(new Estimate(0, 1), Limits.within(1.7))).isEqualTo(UNDECIDED);
        assertThat(Conformance.decide(new Estimate(0, 1), Limits.within(1.97))).isEqualTo(WITHIN);
        assertThat(Conformance.decide(new Estimate(9, 1), Limits.within(1))).isEqualTo(BEYOND);
    }

    @Test
    void withoutUncertaintyTheLimitAloneDecides() {
        assertThat(Conformance.decide(new Estimate(10, 0), Limits.atMost(10))).isEqualTo(WITHIN);
        assertThat(Conformance.decide(new Estimate(Math.nextUp(10.0), 0), Limits.atMost(10)))
                .isEqualTo(BEYOND);
        assertThat(Conformance.probability(new Estimate(10, 0), Limits.atMost(10)))
                .isEqualTo(1);
        assertThat(Conformance.probability(new Estimate(11, 0), Limits.atMost(10)))
                .isZero();
    }

    @Test
    void senselessLimitsAndProbabilitiesAreRefused() {
        assertThatThrownBy(() -> new Limits(2, 1)).hasMessageContaining("from low to high");
        assertThatThrownBy(() -> new Limits(Double.NaN, 1)).isInstanceOf(IllegalArgumentException.class);
        assertThatThrownBy(() -> Conformance.guardBand(1, 0.4)).hasMessageContaining("at least 0.5");
    }
}
