package panelbook.cli.command;

import java.util.ArrayList;
import java.util.List;

/** A room sheet laid out for reading: sections, subjects, and beside each label its text, wrapped. */
final class SheetLayout {

    private static final int WIDEST = 100;
    private static final int NARROWEST = 50;
    private static final int TEXT_COLUMN = 17;

    private SheetLayout() {}

    /** Lines of at most 100 columns, or of the terminal's when it has fewer; 0 for unknown. */
    static List<String> of(List<SheetText.Line> lines, int terminalWidth) {
        var width = terminalWidth == 0 ? WIDEST : Math.max(NARROWEST, Math.min(WIDEST, terminalWidth));
        var laid = new ArrayList<String>();
        var section = "";
        var subject = "";
        var laidSection = "";
        for (var line : lines) {
            if (!line.section().equals(section)) {
                if (!laid.isEmpty()) {
                    laid.add("");
                }
                wrap(laid, "", line.section(), "", width);
                section = line.section();
                subject = "";
            }
            if (!line.subject().equals(subject)) {
                if (!subject.isEmpty() || line.section().equals(laidSection)) {
                    laid.add("");
                }
                if (!line.subject().isEmpty()) {
                    wrap(laid, "  ", line.subject(), "  ", width);
                }
                subject = line.subject();
            }
            laidSection = section;
            var label = (subject.isEmpty() ? "  " : "    ") + line.label();
            wrap(laid, padded(label), line.text(), " ".repeat(TEXT_COLUMN), width);
        }
        return laid;
    }

    private static String padded(String label) {
        return label + " ".repeat(Math.max(1, TEXT_COLUMN - length(label)));
    }

    private static void wrap(List<String> laid, String first, String text, String further, int width) {
        var line = new StringBuilder(first);
        var empty = true;
        for (var word : text.strip().split("\\s+")) {
            var rest = word;
            if (!empty && length(line) + 1 + length(rest) > width) {
                laid.add(line.toString().stripTrailing());
                line = new StringBuilder(further);
                empty = true;
            }
            while (length(line) + length(rest) > width && empty) {
                var end = rest.offsetByCodePoints(0, width - length(line));
                laid.add(line + rest.substring(0, end));
                line = new StringBuilder(further);
                rest = rest.substring(end);
            }
            line.append(empty ? "" : " ").append(rest);
            empty = false;
        }
        laid.add(line.toString().stripTrailing());
    }

    private static int length(CharSequence text) {
        return Character.codePointCount(text, 0, text.length());
    }
}
