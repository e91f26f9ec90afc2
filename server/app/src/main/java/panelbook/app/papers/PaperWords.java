package panelbook.app.papers;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Metric;
import panelbook.wire.Trim;

/** How papers say times and figures; templates know it as {@code paper}. */
public final class PaperWords {

    private static final int DIGITS = 4;
    private static final int DIGITS_OF_UNCERTAINTY = 2;

    private static final DateTimeFormatter DAY = DateTimeFormatter.ofPattern("EEEE d MMMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter DATE = DateTimeFormatter.ofPattern("d MMM yyyy", Locale.ENGLISH);
    private static final DateTimeFormatter TIME = DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm", Locale.ENGLISH);
    private static final DateTimeFormatter EXACT =
            DateTimeFormatter.ofPattern("d MMM yyyy, HH:mm:ss 'UTC'xxx", Locale.ENGLISH);
    private static final DateTimeFormatter CLOCK = DateTimeFormatter.ofPattern("HH:mm", Locale.ENGLISH);

    private final ZoneId zone;

    /** Words for a place in this time zone. */
    public PaperWords(ZoneId zone) {
        this.zone = zone;
    }

    /** The time zone. */
    public ZoneId zone() {
        return zone;
    }

    /** E.g. Tuesday 24 November 2026. */
    public String day(LocalDate day) {
        return DAY.format(day);
    }

    /** E.g. 24 Nov 2026, or a dash for none. */
    public String date(@Nullable LocalDate day) {
        return day == null ? "–" : DATE.format(day);
    }

    /** E.g. 24 Nov 2026, 18:05; a dash for none. */
    public String time(@Nullable Instant at) {
        return at == null ? "–" : TIME.format(at.atZone(zone));
    }

    /** To the second, with the distance from UTC. */
    public String exact(Instant at) {
        return EXACT.format(at.atZone(zone));
    }

    /** The time of day, with the date where it is not on {@code day}. */
    public String clock(Instant at, LocalDate day) {
        var local = at.atZone(zone);
        return local.toLocalDate().equals(day) ? CLOCK.format(local) : TIME.format(local);
    }

    /** The end of a span, exclusive: midnight ends the day before as 24:00. */
    public String end(Instant at, LocalDate day) {
        var local = at.atZone(zone);
        return local.equals(day.plusDays(1).atStartOfDay(zone)) ? "24:00" : clock(at, day);
    }

    /** To four digits, as long as it needs to be; a dash for none. */
    public String number(@Nullable Double value) {
        return value == null
                ? "–"
                : signed(new BigDecimal(value.toString())
                        .round(new MathContext(DIGITS, RoundingMode.HALF_EVEN))
                        .stripTrailingZeros());
    }

    /** With so many decimals; a dash for none. */
    public String fixed(@Nullable Double value, int decimals) {
        return value == null
                ? "–"
                : signed(new BigDecimal(value.toString()).setScale(decimals, RoundingMode.HALF_EVEN));
    }

    /**
     * A value with its expanded uncertainty and unit, e.g. 998.1 ± 20 cd/m². The uncertainty has two digits and the value as many
     * decimals as it, JCGM 100:2008, 7.2.6; without an uncertainty it has four digits.
     */
    public String figure(@Nullable Double value, @Nullable Double expandedUncertainty, String unit) {
        if (value == null) {
            return "–";
        }
        var decimals = expandedUncertainty == null || expandedUncertainty <= 0 ? null : decimals(expandedUncertainty);
        var text = decimals == null
                ? number(value)
                : fixed(value, decimals) + " ± " + fixed(expandedUncertainty, decimals);
        return text + (unit.isEmpty() ? "" : unit.startsWith(":") ? unit : " " + unit);
    }

    private static int decimals(double expandedUncertainty) {
        var rounded = new BigDecimal(Double.toString(expandedUncertainty))
                .round(new MathContext(DIGITS_OF_UNCERTAINTY, RoundingMode.HALF_UP));
        return Math.max(0, rounded.scale());
    }

    /** A share as %; nearly all is never called all. */
    public String percent(@Nullable Double share) {
        if (share == null) {
            return "–";
        }
        if (share > 0.9995 && share < 1) {
            return "> 99.9 %";
        }
        return share > 0 && share < 0.0005 ? "< 0.1 %" : fixed(100 * share, 1) + " %";
    }

    /** A word of the contract in words: ready-with-remarks, ready with remarks; a dash for none. */
    public String word(@Nullable Object word) {
        return word == null ? "–" : word.toString().replace('-', ' ');
    }

    /** The name of a figure in words: ΔE ITP, largest. */
    public String metric(Metric metric) {
        return metric.words();
    }

    /** How far a control stands from its calibrated setting: gain.red +2. */
    public String trim(Trim trim) {
        var clicks = trim.clicks() > 0 ? "+" + trim.clicks() : String.valueOf(trim.clicks());
        return trim.control() + (trim.level().equals("all") ? "" : " (" + trim.level() + ")") + " "
                + clicks.replace('-', '−');
    }

    /** Text, or a dash for none. */
    public String text(@Nullable String text) {
        return text == null || text.isBlank() ? "–" : text;
    }

    private static String signed(BigDecimal number) {
        var text = number.signum() == 0 ? number.abs().toPlainString() : number.toPlainString();
        return text.replace('-', '−');
    }
}
