package panelbook.app.drawing;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.DoubleStream;

/**
 * An axis: values in their unit to places in the drawing.
 *
 * @param least value at {@code from}
 * @param most value at {@code to}, above {@code least}
 * @param step between ticks, 1, 2 or 5 times a power of ten
 * @param from place in px
 * @param to place in px
 */
record Scale(double least, double most, double step, double from, double to) {

    /** A scale that holds all values, with about so many ticks; a little wider where all are alike. */
    static Scale of(DoubleStream values, int ticks, double from, double to) {
        var range = values.summaryStatistics();
        var low = range.getMin();
        var high = range.getMax();
        if (!(high - low > Math.abs(high) * 1e-9)) {
            var around = high == 0 ? 1 : Math.abs(high) * 0.01;
            low -= around;
            high += around;
        }
        var step = step((high - low) / ticks);
        return new Scale(Math.floor(low / step) * step, Math.ceil(high / step) * step, step, from, to);
    }

    private static double step(double rough) {
        var power = Math.pow(10, Math.floor(Math.log10(rough)));
        var share = rough / power;
        return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
    }

    double at(double value) {
        return from + (value - least) / (most - least) * (to - from);
    }

    List<Double> ticks() {
        var ticks = new ArrayList<Double>();
        var count = Math.round((most - least) / step);
        for (var i = 0L; i <= count; i++) {
            ticks.add(least + i * step);
        }
        return ticks;
    }

    /** A tick as it is written, with the decimals that its step needs. */
    String label(double tick) {
        var decimals = Math.max(0, BigDecimal.valueOf(step).stripTrailingZeros().scale());
        var label = String.format(Locale.ROOT, "%." + decimals + "f", tick);
        return label.matches("-0(\\.0*)?") ? label.substring(1) : label;
    }
}
