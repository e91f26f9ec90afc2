package panelbook.app.papers;

import org.springframework.web.util.HtmlUtils;

/** A drawing to be set into a paper. */
public final class PaperPicture {

    private PaperPicture() {}

    /**
     * A drawing with what is said of it to those who do not see it, which tagged PDF asks for (ISO 14289-1, 7.3).
     *
     * @param svg one svg element, at most 680 wide
     * @param words what it shows
     */
    public static String of(String svg, String words) {
        var start = svg.indexOf("<svg ");
        if (start < 0) {
            throw new IllegalArgumentException("No drawing: " + svg);
        }
        var said = HtmlUtils.htmlEscape(words.replaceAll("\\s+", " "), "UTF-8");
        return "<svg alt=\"" + said + "\" title=\"" + said + "\" " + svg.substring(start + "<svg ".length());
    }
}
