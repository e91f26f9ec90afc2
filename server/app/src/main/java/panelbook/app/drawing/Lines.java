package panelbook.app.drawing;

import java.util.ArrayList;
import java.util.List;

/** Breaks words into lines. */
final class Lines {

    private Lines() {}

    /** Lines no wider than {@code width} px, but for words that are. */
    static List<String> of(Canvas canvas, String words, double width) {
        var lines = new ArrayList<String>();
        var line = new StringBuilder();
        for (var word : words.split(" ", -1)) {
            if (!line.isEmpty() && canvas.width(line + " " + word) > width) {
                lines.add(line.toString());
                line.setLength(0);
            }
            line.append(line.isEmpty() ? "" : " ").append(word);
        }
        lines.add(line.toString());
        return lines;
    }
}
