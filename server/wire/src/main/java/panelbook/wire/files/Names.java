package panelbook.wire.files;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/** Names as people write them: forgiving comparison, and the nearest known name for one that is not known. */
final class Names {

    private Names() {}

    /** Lower case, with hyphens for blanks and underscores. */
    static String plain(String name) {
        return name.strip().toLowerCase(Locale.ROOT).replace('_', '-').replace(' ', '-');
    }

    /** {@code " Did you mean X?"} when one of the known names is near, else nothing. */
    static String suggestion(String name, List<String> known) {
        String nearest = nearest(name, known);
        return nearest == null ? "" : " Did you mean " + nearest + "?";
    }

    /** The known name with the fewest changed letters, when that is a third of its length or less; or null. */
    static @Nullable String nearest(String name, List<String> known) {
        String best = null;
        int least = Integer.MAX_VALUE;
        String plain = plain(name);
        if (plain.length() > 60) {
            return null;
        }
        for (String candidate : known) {
            int changes = changes(plain, plain(candidate));
            if (changes < least && 3 * changes <= Math.max(candidate.length(), plain.length())) {
                best = candidate;
                least = changes;
            }
        }
        return best;
    }

    /** Letters to insert, delete or replace to make one of the other (Levenshtein 1966). */
    private static int changes(String from, String to) {
        int[] row = new int[to.length() + 1];
        for (int j = 0; j <= to.length(); j++) {
            row[j] = j;
        }
        for (int i = 1; i <= from.length(); i++) {
            int diagonal = row[0];
            row[0] = i;
            for (int j = 1; j <= to.length(); j++) {
                int replaced = diagonal + (from.charAt(i - 1) == to.charAt(j - 1) ? 0 : 1);
                diagonal = row[j];
                row[j] = Math.min(replaced, 1 + Math.min(row[j], row[j - 1]));
            }
        }
        return row[to.length()];
    }
}
