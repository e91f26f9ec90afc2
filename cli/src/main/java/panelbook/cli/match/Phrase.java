package panelbook.cli.match;

import java.util.ArrayList;
import java.util.List;
import panelbook.cli.terminal.Failure;

/**
 * A line split into words. Quotes hold a word together; there is nothing else to escape.
 *
 * @param words without their quotes
 */
record Phrase(List<String> words) {

    static Phrase of(String line) {
        var words = new ArrayList<String>();
        var word = new StringBuilder();
        var inWord = false;
        var quote = '\0';
        for (var c : line.toCharArray()) {
            if (quote != '\0') {
                if (c == quote) {
                    quote = '\0';
                } else {
                    word.append(c);
                }
            } else if (opens(c, inWord)) {
                quote = c;
                inWord = true;
            } else if (Character.isWhitespace(c)) {
                if (inWord) {
                    words.add(word.toString());
                    word.setLength(0);
                }
                inWord = false;
            } else {
                word.append(c);
                inWord = true;
            }
        }
        if (quote != '\0') {
            throw Failure.usage("A quote is opened and not closed: " + line.strip());
        }
        if (inWord) {
            words.add(word.toString());
        }
        return new Phrase(List.copyOf(words));
    }

    // an apostrophe within a word is one
    private static boolean opens(char c, boolean inWord) {
        return c == '"' || c == '\'' && !inWord;
    }

    boolean isEmpty() {
        return words.isEmpty();
    }

    int size() {
        return words.size();
    }

    String first() {
        return words.get(0);
    }

    String word(int index) {
        return words.get(index);
    }

    Phrase from(int index) {
        return new Phrase(words.subList(index, words.size()));
    }

    Phrase until(int index) {
        return new Phrase(words.subList(0, index));
    }

    int indexOf(String word) {
        return words.indexOf(word);
    }

    String text() {
        return String.join(" ", words);
    }
}
