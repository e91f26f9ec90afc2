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

    /** Letters to insert, delete, replace or swap with their neighbour to make one of the other (Damerau 1964). */
    private static int changes(String from, String to) {
        int[][] table = new int[from.length() + 1][to.length() + 1];
        for (int i = 0; i <= from.length(); i++) {
            for (int j = 0; j <= to.length(); j++) {
                table[i][j] = i == 0 || j == 0 ? i + j : least(table, from, to, i, j);
            }
        }
        return table[from.length()][to.length()];
    }

    private static int least(int[][] table, String from, String to, int i, int j) {
        char a = from.charAt(i - 1);
        char b = to.charAt(j - 1);
        int replaced = table[i - 1][j - 1] + (a == b ? 0 : 1);
        int least = Math.min(replaced, 1 + Math.min(table[i - 1][j], table[i][j - 1]));
        boolean swapped = i > 1 && j > 1 && a == to.charAt(j - 2) && b == from.charAt(i - 2);
        return swapped ? Math.min(least, 1 + table[i - 2][j - 2]) : least;
    }
}
