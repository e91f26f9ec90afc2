package panelbook.app.planning;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Locale;

/** Numbers and days in sentences. */
final class Say {

    private Say() {}

    static String fixed(double value, int decimals) {
        return String.format(Locale.ROOT, "%." + decimals + "f", value);
    }

    /** The day of an instant, UTC. */
    static String day(Instant at) {
        return at.atOffset(ZoneOffset.UTC).toLocalDate().toString();
    }
}
