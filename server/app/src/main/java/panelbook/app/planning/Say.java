package panelbook.app.planning;

import java.time.Instant;
import java.util.Locale;
import panelbook.app.rest.Days;

/** Numbers and days in sentences. */
final class Say {

    private Say() {}

    static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    /** The day of an instant, UTC. */
    static String day(Instant at) {
        return Days.of(at).toString();
    }
}
