package panelbook.cli.terminal;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.time.Duration;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import org.jspecify.annotations.Nullable;

/** How values look: in full to a pipe, short to a person. */
final class Cells {

    private Cells() {}

    /** In full: numbers with all digits, instants as RFC 3339, nothing for null; no tab or line break. */
    static String full(@Nullable Object value) {
        if (value == null) {
            return "";
        }
        var text = value instanceof Double d ? plain(d) : value.toString();
        return oneLine(text);
    }

    /** Short: instants relative to {@code now} when near, numbers to six digits, yes and no. */
    static String brief(@Nullable Object value, Instant now) {
        if (value instanceof Instant at) {
            return ago(at, now);
        }
        if (value instanceof Boolean b) {
            return b ? "yes" : "no";
        }
        return value instanceof Double d ? rounded(d) : full(value);
    }

    private static String oneLine(String text) {
        if (text.indexOf('\t') < 0 && text.indexOf('\n') < 0 && text.indexOf('\r') < 0) {
            return text;
        }
        return text.replace('\t', ' ').replace("\r\n", " ").replace('\n', ' ').replace('\r', ' ');
    }

    private static String plain(double value) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        var decimal = new BigDecimal(Double.toString(value));
        return decimal.signum() == 0 ? "0" : decimal.stripTrailingZeros().toPlainString();
    }

    private static String rounded(double value) {
        if (!Double.isFinite(value)) {
            return Double.toString(value);
        }
        var decimal = new BigDecimal(value).round(new MathContext(6, RoundingMode.HALF_EVEN));
        return plain(decimal.doubleValue());
    }

    private static String ago(Instant at, Instant now) {
        var apart = Duration.between(at, now);
        var words = span(apart.abs());
        if (words == null) {
            return at.truncatedTo(ChronoUnit.MINUTES)
                    .toString()
                    .replace('T', ' ')
                    .replace(":00Z", "Z");
        }
        return apart.isNegative() ? "in " + words : words + " ago";
    }

    private static @Nullable String span(Duration apart) {
        if (apart.toMinutes() < 1) {
            return apart.toSeconds() + " s";
        }
        if (apart.toHours() < 1) {
            return apart.toMinutes() + " min";
        }
        return apart.toHours() < 48 ? apart.toHours() + " h" : null;
    }
}
