package panelbook.app.papers;

import com.openhtmltopdf.extend.FSTextBreaker;

/**
 * Where a line may end on paper: after a space, and after a slash or hyphen between words; never within a figure, a time or a day, as
 * the line breaks of the Java platform do, since half of a figure reads like another one.
 */
final class LineEnds implements FSTextBreaker {

    private static final int DONE = -1;

    private String text = "";
    private int at;

    @Override
    public void setText(String text) {
        this.text = text;
        this.at = 0;
    }

    @Override
    public int next() {
        while (at < text.length()) {
            at++;
            if (at == text.length() || mayEnd(at)) {
                return at;
            }
        }
        return DONE;
    }

    /** Whether a line may end before the character there. */
    private boolean mayEnd(int next) {
        var before = text.charAt(next - 1);
        if (before == ' ' || before == '\n' || before == '\t') {
            return !Character.isWhitespace(text.charAt(next));
        }
        return (before == '/' || before == '-')
                && next > 1
                && isWord(next)
                && Character.isLetterOrDigit(text.charAt(next - 2));
    }

    /** Letters alone tell a name from a figure; units, e.g. cd/m², have one. */
    private boolean isWord(int start) {
        return start + 1 < text.length()
                && Character.isLetter(text.charAt(start))
                && Character.isLetterOrDigit(text.charAt(start + 1))
                && text.charAt(start + 1) != '²';
    }
}
