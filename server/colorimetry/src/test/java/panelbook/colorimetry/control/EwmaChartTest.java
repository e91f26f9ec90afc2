package panelbook.colorimetry.control;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class EwmaChartTest {
    private static final double[] HANDBOOK = {
        52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
        53.6, 52.1
    };
    private static final double[] HANDBOOK_AVERAGES = {
        50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92,
        50.73, 51.23, 51.94, 51.99
    };

    /** Source: NIST/SEMATECH e-Handbook 6.3.2.4, the worked example; its numbers from memory. */
    @Test
    void theHandbooksExampleComesOut() {
        EwmaChart chart = new EwmaChart(50, 2.0539, 0.3, 3);
        assertThat(chart.upper()).as("upper limit").isCloseTo(52.5884, within(5e-4));
        assertThat(chart.lower()).as("lower limit").isCloseTo(47.4115, within(5e-4));
        double[] averages = chart.averages(HANDBOOK);
        for (int i = 0; i < averages.length; i++) {
            assertThat(averages[i]).as("average %d", i + 1).isCloseTo(HANDBOOK_AVERAGES[i], within(0.0051));
        }
        assertThat(chart.signal(HANDBOOK))
                .as("signal in the handbook's example")
                .isEmpty();
    }

    /** Source: Lucas and Saccucci 1990, as handbooks tabulate it; values from memory, to the digits given there. */
    @ParameterizedTest
    @CsvSource({
        "0.4, 3.054, 0, 500, 1", "0.4, 3.054, 0.5, 71.2, 0.1", "0.4, 3.054, 1, 14.3, 0.1", "0.4, 3.054, 2, 3.5, 0.1",
        "0.25, 2.998, 0, 500, 1.5", "0.25, 2.998, 0.5, 48.2, 0.1", "0.25, 2.998, 1, 11.1, 0.1",
                "0.25, 2.998, 3, 2.3, 0.1",
        "0.2, 2.962, 0, 500, 1.5", "0.2, 2.962, 0.5, 41.8, 0.1", "0.2, 2.962, 1, 10.5, 0.1", "0.2, 2.962, 4, 1.9, 0.1",
        "0.1, 2.814, 0, 500, 1.5", "0.1, 2.814, 0.5, 31.3, 0.1", "0.1, 2.814, 1, 10.3, 0.1", "0.1, 2.814, 2, 4.4, 0.1",
        "0.05, 2.615, 0, 500, 2", "0.05, 2.615, 0.5, 28.8, 0.1", "0.05, 2.615, 1, 11.4, 0.1"
    })
    void averageRunLengthsAreThoseOfThePublishedTable(
            double lambda, double width, double shift, double published, double digits) {
        assertThat(RunLength.average(lambda, width, shift)).isCloseTo(published, within(digits));
    }

    /** Source: with lambda 1 the chart is Shewhart's; 370.4 is in every handbook. */
    @Test
    void withNoMemoryTheChartIsShewharts() {
        assertThat(RunLength.average(1, 3, 0)).isCloseTo(370.4, within(0.1));
    }

    @ParameterizedTest
    @CsvSource({"0.2, 2.5, 0", "0.1, 2.814, 0.5", "0.2, 2.962, 1", "0.2, 3.39, 2", "0.4, 3.054, 1"})
    void chainAndSimulationAgreeOnTheRunLength(double lambda, double width, double shift) {
        RunLengths.Simulated simulated = RunLengths.simulate(lambda, width, shift, 6000, new Random(7));
        assertThat(RunLength.average(lambda, width, shift))
                .as("by the chain, simulated %.2f +- %.2f", simulated.mean(), simulated.error())
                .isCloseTo(simulated.mean(), within(3.5 * simulated.error()));
    }

    @Test
    void aShareOfMoreThanAllIsRefused() {
        assertThatThrownBy(() -> new EwmaChart(0, 1, 1.2, 3))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("lambda");
    }
}
