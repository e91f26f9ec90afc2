package panelbook.app.drawing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Random;
import java.util.stream.DoubleStream;
import java.util.stream.IntStream;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.data.Range;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.wire.AxisScale;

/** Ticks are multiples of 1, 2 or 5 times a power of ten, hold all values, and their labels tell them apart. */
class TicksTest {

    @ParameterizedTest
    @MethodSource("seeds")
    void anAxisHoldsAllValuesAndItsTicksAreRound(long seed) {
        var random = new Random(seed);
        var size = Math.pow(10, random.nextInt(12) - 5);
        var least = (random.nextDouble() - 0.3) * size;
        var most = least + (0.01 + random.nextDouble()) * size;
        var axis = new NumberAxis(null);
        Ticks.around(axis, AxisScale.LINEAR, new Range(least, most), 5);

        assertThat(axis.getRange().contains(least)).isTrue();
        assertThat(axis.getRange().contains(most)).isTrue();
        var step = axis.getTickUnit().getSize();
        var ticks = axis.getRange().getLength() / step;
        assertThat(ticks).as("a whole number of steps").isCloseTo(Math.rint(ticks), within(1e-6));
        assertThat(Math.rint(ticks)).isBetween(2.0, 7.0);
        var mantissa = step / Math.pow(10, Math.floor(Math.log10(step) + 1e-9));
        assertThat(Math.round(mantissa * 1e6) / 1e6).isIn(1.0, 2.0, 5.0);
        assertThat(DoubleStream.iterate(axis.getLowerBound(), tick -> tick + step)
                        .limit((long) Math.rint(ticks) + 1)
                        .mapToObj(tick -> axis.getTickUnit().valueToString(tick))
                        .distinct()
                        .count())
                .as("labels tell ticks apart")
                .isEqualTo((long) Math.rint(ticks) + 1);
    }

    private static org.assertj.core.data.Offset<Double> within(double offset) {
        return org.assertj.core.data.Offset.offset(offset);
    }

    static IntStream seeds() {
        return IntStream.rangeClosed(1, 60);
    }
}
