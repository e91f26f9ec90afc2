package panelbook.cli.command;

import java.math.BigDecimal;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;
import panelbook.cli.terminal.Failure;

/** What people type into options, understood or answered with what would be right. */
final class Words {

    private Words() {}

    /** A number without exponent or needless zeros. */
    static String number(double value) {
        var decimal = new BigDecimal(Double.toString(value));
        return decimal.signum() == 0 ? "0" : decimal.stripTrailingZeros().toPlainString();
    }

    /** The constant of an enum by the word that the wire uses. */
    static <E extends Enum<E>> E one(Class<E> type, String option, String word) {
        for (var constant : type.getEnumConstants()) {
            if (constant.toString().equals(word)) {
                return constant;
            }
        }
        var words = Arrays.stream(type.getEnumConstants()).map(Object::toString).collect(Collectors.joining(", "));
        throw Failure.usage(option + " \"" + word + "\" is none of: " + words + ".");
    }

    /** A time with its offset, as RFC 3339 writes it. */
    static Instant time(String option, String text) {
        try {
            return OffsetDateTime.parse(text).toInstant();
        } catch (DateTimeException e) {
            throw Failure.usage(
                    option + " \"" + text + "\" is not a time with its offset, such as 2026-03-31T14:05:00+02:00.");
        }
    }

    /** A day. */
    static LocalDate date(String option, String text) {
        try {
            return LocalDate.parse(text);
        } catch (DateTimeException e) {
            throw Failure.usage(option + " \"" + text + "\" is not a date such as 2026-03-31.");
        }
    }

    /** A time, or a day, which stands for its end in UTC. */
    static Instant timeOrEndOfDay(String option, String text) {
        return text.indexOf('T') < 0
                ? date(option, text).plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant()
                : time(option, text);
    }

    /** A time, or a day, which stands for its start in UTC. */
    static Instant timeOrStartOfDay(String option, String text) {
        return text.indexOf('T') < 0
                ? date(option, text).atStartOfDay(ZoneOffset.UTC).toInstant()
                : time(option, text);
    }

    /** A time zone's name. */
    static String zone(String option, String text) {
        try {
            return ZoneId.of(text).getId();
        } catch (DateTimeException e) {
            throw Failure.usage(
                    option + " \"" + text + "\" is not a time zone. Use an IANA name such as Europe/Lisbon.");
        }
    }

    /** A finite number. */
    static double number(String option, String text) {
        try {
            var value = Double.parseDouble(text);
            if (Double.isFinite(value)) {
                return value;
            }
        } catch (NumberFormatException e) {
            throw notNumber(option, text);
        }
        throw notNumber(option, text);
    }

    private static Failure notNumber(String option, String text) {
        return Failure.usage(
                option + " \"" + text + "\" is not a number. Write it with a decimal point, such as 0.004.");
    }

    /** A word as a shell takes it back. */
    static String quoted(String text) {
        return text.matches("[\\w./:@%+=,-]+") ? text : "\"" + text.replaceAll("([\"$`\\\\])", "\\\\$1") + "\"";
    }

    /** To a number of decimals, the same in every locale. */
    static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }
}
