package panelbook.app.assessment;

import java.time.Instant;
import java.util.Locale;
import panelbook.app.rest.Days;

/** Numbers in sentences, the same in every locale. */
final class Say {

    private Say() {}

    /** To a number of decimals. */
    static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", withoutNegativeZero(value, decimals));
    }

    /** To a number of decimals, always with a sign. */
    static String signed(double value, int decimals) {
        return String.format(Locale.ROOT, "%+." + decimals + "f", withoutNegativeZero(value, decimals))
                .replace('-', '−');
    }

    private static double withoutNegativeZero(double value, int decimals) {
        return Math.abs(value) * Math.pow(10, decimals) < 0.5 ? 0 : value;
    }

    /** Three significant digits, without an exponent where people would not write one. */
    static String short3(double value) {
        var magnitude = Math.abs(value);
        if (magnitude == 0) {
            return "0";
        }
        var decimals = (int) Math.max(0, 2 - Math.floor(Math.log10(magnitude)));
        return fixed(value, Math.min(decimals, 6));
    }

    /** The day of an instant, UTC. */
    static String day(Instant at) {
        return Days.of(at).toString();
    }
}
