package panelbook.app.drawing;

import java.math.BigDecimal;
import java.text.DecimalFormat;
import java.text.DecimalFormatSymbols;
import java.text.FieldPosition;
import java.text.NumberFormat;
import java.text.ParsePosition;
import java.time.LocalDate;
import java.util.Locale;
import org.jfree.chart.axis.NumberAxis;
import org.jfree.chart.axis.NumberTickUnit;
import org.jfree.data.Range;
import panelbook.wire.AxisScale;

/** Where the ticks of an axis stand and what they say, the same in every locale. */
final class Ticks {

    private static final double[] DAYS = {1, 2, 7, 14, 28, 56, 91, 182, 364, 728, 1456, 3640};
    private static final int LOG_DECIMALS = 6;
    private static final double SLACK = 1e-9;

    private Ticks() {}

    /** Lays about so many ticks over a range as it is plotted, which is widened to the next ones. */
    static void around(NumberAxis axis, AxisScale scale, Range range, int count) {
        var unit = unit(scale, range.getLength() / count);
        axis.setTickUnit(unit);
        var step = unit.getSize();
        axis.setRange(
                Math.floor(range.getLowerBound() / step + SLACK) * step,
                Math.ceil(range.getUpperBound() / step - SLACK) * step);
    }

    /** Lays about so many ticks over a range, which stays as it is. */
    static void within(NumberAxis axis, AxisScale scale, Range range, int count) {
        axis.setTickUnit(unit(scale, range.getLength() / count));
        axis.setRange(range);
    }

    /** Lays ticks that far apart over a range, which stays as it is. */
    static void every(NumberAxis axis, Range range, double step) {
        axis.setTickUnit(new NumberTickUnit(step, decimals(step)));
        axis.setRange(range);
    }

    private static NumberTickUnit unit(AxisScale scale, double rough) {
        return switch (scale) {
            case LINEAR -> new NumberTickUnit(round(rough), decimals(round(rough)));
            case LOGARITHMIC -> new NumberTickUnit(Math.max(1, Math.floor(rough)), new Powers());
            case TIME -> new NumberTickUnit(days(rough), new Dates());
        };
    }

    /** 1, 2 or 5 times a power of ten, not below. */
    static double round(double rough) {
        var power = Math.pow(10, Math.floor(Math.log10(rough)));
        var share = rough / power;
        return power * (share <= 1 ? 1 : share <= 2 ? 2 : share <= 5 ? 5 : 10);
    }

    private static double days(double rough) {
        for (var step : DAYS) {
            if (rough <= step) {
                return step;
            }
        }
        return DAYS[DAYS.length - 1];
    }

    private static NumberFormat decimals(double step) {
        var format = plain();
        var decimals = Math.max(
                0,
                new BigDecimal(String.format(Locale.ROOT, "%.6g", step))
                        .stripTrailingZeros()
                        .scale());
        format.setMinimumFractionDigits(decimals);
        format.setMaximumFractionDigits(decimals);
        return format;
    }

    private static DecimalFormat plain() {
        var format = new WithoutNegativeZero();
        format.setGroupingUsed(false);
        return format;
    }

    /** Sums of steps end a little beside zero. */
    private static final class WithoutNegativeZero extends DecimalFormat {

        private static final long serialVersionUID = 1;

        WithoutNegativeZero() {
            super("0", DecimalFormatSymbols.getInstance(Locale.ROOT));
        }

        @Override
        public StringBuffer format(double value, StringBuffer to, FieldPosition position) {
            var nothing = Math.abs(value) < 0.5 * Math.pow(10, -getMaximumFractionDigits());
            return super.format(nothing ? 0 : value, to, position);
        }
    }

    /** Logarithms to the base of ten as the values that they are of. */
    private static final class Powers extends NumberFormat {

        private static final long serialVersionUID = 1;

        @Override
        public StringBuffer format(double log, StringBuffer to, FieldPosition position) {
            var power = plain();
            power.setMaximumFractionDigits(LOG_DECIMALS);
            return power.format(Math.pow(10, Math.round(log)), to, position);
        }

        @Override
        public StringBuffer format(long log, StringBuffer to, FieldPosition position) {
            return format((double) log, to, position);
        }

        @Override
        public Number parse(String text, ParsePosition position) {
            throw new UnsupportedOperationException("powers are only written");
        }
    }

    /** Days since 1970-01-01 as dates. */
    private static final class Dates extends NumberFormat {

        private static final long serialVersionUID = 1;

        @Override
        public StringBuffer format(double days, StringBuffer to, FieldPosition position) {
            return to.append(LocalDate.ofEpochDay(Math.round(days)));
        }

        @Override
        public StringBuffer format(long days, StringBuffer to, FieldPosition position) {
            return to.append(LocalDate.ofEpochDay(days));
        }

        @Override
        public Number parse(String text, ParsePosition position) {
            throw new UnsupportedOperationException("dates are only written");
        }
    }
}
