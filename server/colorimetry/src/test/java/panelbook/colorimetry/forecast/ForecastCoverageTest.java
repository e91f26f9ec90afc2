package panelbook.colorimetry.forecast;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

/** A part of what {@link ForecastCoverage} prints; our own simulation, no published source. */
class ForecastCoverageTest {
    @Test
    void theEarliestCrossingOfLuminanceHoldsInNinetyOfAHundredPanels() {
        assertHolds(ForecastCoverage.luminance(800));
    }

    @Test
    void theEarliestCrossingOfWhiteHoldsInNinetyOfAHundredPanels() {
        assertHolds(ForecastCoverage.white(800));
    }

    private static void assertHolds(List<ForecastCoverage.Outcome> outcomes) {
        assertThat(ForecastCoverage.held(outcomes))
                .as("share of bounds that hold")
                .isBetween(0.87, 0.93);
        assertThat(ForecastCoverage.medianError(outcomes))
                .as("median relative error")
                .isLessThan(0.12);
    }
}
