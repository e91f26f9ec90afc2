package panelbook.cli;

import java.util.Collection;
import java.util.Comparator;

/** Finds the word that was likely meant. */
final class Likeness {

    private static final int FARTHEST = 2;

    private Likeness() {}

    /** A question for the known word nearest to {@code word}; empty when none is near. */
    static String question(String word, Collection<String> known) {
        return known.stream()
                .filter(candidate -> distance(word, candidate) <= FARTHEST)
                .min(Comparator.comparingInt(candidate -> distance(word, candidate)))
                .map(candidate -> " Did you mean " + candidate + "?")
                .orElse("");
    }

    /** Letters inserted, left out, replaced or swapped with their neighbour, each counting one. */
    static int distance(String a, String b) {
        var d = new int[a.length() + 1][b.length() + 1];
        for (var i = 0; i <= a.length(); i++) {
            for (var j = 0; j <= b.length(); j++) {
                if (i == 0 || j == 0) {
                    d[i][j] = i + j;
                    continue;
                }
                var replaced = d[i - 1][j - 1] + (a.charAt(i - 1) == b.charAt(j - 1) ? 0 : 1);
                d[i][j] = Math.min(replaced, 1 + Math.min(d[i - 1][j], d[i][j - 1]));
                if (i > 1 && j > 1 && a.charAt(i - 1) == b.charAt(j - 2) && a.charAt(i - 2) == b.charAt(j - 1)) {
                    d[i][j] = Math.min(d[i][j], 1 + d[i - 2][j - 2]);
                }
            }
        }
        return d[a.length()][b.length()];
    }
}
