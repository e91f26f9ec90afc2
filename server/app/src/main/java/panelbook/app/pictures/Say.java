package panelbook.app.pictures;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import panelbook.app.rest.Days;

/** Numbers in sentences, the same in every locale. */
final class Say {

    private Say() {}

    /** To a number of decimals. */
    static String fixed(double value, int decimals) {
        var nothing = Math.abs(value) * Math.pow(10, decimals) < 0.5;
        return String.format(Locale.ROOT, "%." + decimals + "f", nothing ? 0 : value)
                .replace('-', '−');
    }

    /** With so many digits that count, without an exponent. */
    static String digits(double value, int digits) {
        var magnitude = value == 0 ? 0 : (int) Math.floor(Math.log10(Math.abs(value)));
        return fixed(value, Math.max(0, Math.min(digits - 1 - magnitude, 6)));
    }

    /** The day of an instant, UTC. */
    static String day(Instant at) {
        return Days.of(at).toString();
    }

    /** "a", "a and b", "a, b and c". */
    static String list(List<String> words) {
        return words.size() < 2
                ? String.join("", words)
                : String.join(", ", words.subList(0, words.size() - 1)) + " and " + words.get(words.size() - 1);
    }
}
