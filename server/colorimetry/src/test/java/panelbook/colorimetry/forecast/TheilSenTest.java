package panelbook.colorimetry.forecast;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static panelbook.colorimetry.PublishedTable.number;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.colorimetry.PublishedTable;

class TheilSenTest {
    static Stream<NamedCsvRecord> series() {
        return PublishedTable.rows("theil_sen.csv").stream();
    }

    /** Source: Sen 1968 and Kendall, as computed by a general-purpose library; the command is in the file. */
    @ParameterizedTest
    @MethodSource("series")
    void slopeIntervalAndTauAreThoseOfTheReferenceSeries(NamedCsvRecord row) {
        TheilSen line = TheilSen.fit(numbers(row, "x"), numbers(row, "y"));
        assertClose("slope", line.slope(), number(row, "slope"));
        assertClose("intercept", line.intercept(), number(row, "intercept"));
        TheilSen.Interval interval = line.slopeInterval(number(row, "level"));
        assertClose("lower end of the slope's interval", interval.low(), number(row, "slope_low"));
        assertClose("upper end of the slope's interval", interval.high(), number(row, "slope_high"));
        assertClose("Kendall's tau-b", line.kendall().tauB(), number(row, "kendall_tau"));
        assertClose("p of Kendall's tau", line.kendall().pValue(), number(row, "kendall_p"));
    }

    private static void assertClose(String what, double actual, double published) {
        assertThat(actual).as(what).isCloseTo(published, within(1e-12 + 1e-11 * Math.abs(published)));
    }

    private static double[] numbers(NamedCsvRecord row, String column) {
        return Stream.of(row.getField(column).split(" "))
                .mapToDouble(Double::parseDouble)
                .toArray();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void aQuarterOfWildReadingsDoesNotCarryTheLineAway(long seed) {
        Random random = new Random(seed);
        double[] x = new double[24];
        double[] y = new double[24];
        for (int i = 0; i < 24; i++) {
            x[i] = 100 * i + 50 * random.nextDouble();
            y[i] = i % 4 == 0 ? 1000 * random.nextGaussian() : 3 - 2e-5 * x[i];
        }
        assertThat(TheilSen.fit(x, y).slope()).isCloseTo(-2e-5, within(1e-8));
    }

    /** A law of the exact distribution: of many series of noise, the bound lies below the true slope as often as it says. */
    @ParameterizedTest
    @ValueSource(ints = {5, 7, 12, 40})
    void theOneSidedBoundOfTheSlopeHoldsAsOftenAsItSays(int n) {
        Random random = new Random(n);
        int held = 0;
        int total = 2000;
        for (int t = 0; t < total; t++) {
            double[] x = new double[n];
            double[] y = new double[n];
            for (int i = 0; i < n; i++) {
                x[i] = i + 0.5 * random.nextDouble();
                y[i] = 0.3 * x[i] + random.nextGaussian();
            }
            TheilSen line = TheilSen.fit(x, y);
            held += line.lowerBound(0.9) <= 0.3 ? 1 : 0;
            held += line.upperBound(0.9) >= 0.3 ? 1 : 0;
        }
        assertThat(held / (2.0 * total))
                .as("share of bounds that hold, of %d points", n)
                .isBetween(0.88, 0.92);
    }

    @Test
    void pointsAtOnePlaceHaveNoLine() {
        assertThatThrownBy(() -> TheilSen.fit(new double[] {5, 5, 5}, new double[] {1, 2, 3}))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("two different places");
    }
}
