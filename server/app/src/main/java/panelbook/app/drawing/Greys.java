package panelbook.app.drawing;

import java.awt.Color;
import panelbook.wire.Paper;

/**
 * The greys of a drawing. On the dark ground none is above 176 of 255, since it may be opened where pictures are graded; what
 * carries meaning has a contrast of 3:1 with the ground at least, text 4.5:1 (WCAG 2.2, 1.4.11 and 1.4.3).
 *
 * @param tolerance area of what is tolerated
 * @param band area in which the truth is expected
 * @param faint for orientation only
 */
record Greys(
        Color ground,
        Color tolerance,
        Color band,
        Color grid,
        Color faint,
        Color axis,
        Color words,
        Color line,
        Color mark) {

    private static final Greys DARK = new Greys(
            grey(0x16), grey(0x1f), grey(0x30), grey(0x28), grey(0x48), grey(0x6a), grey(0xa0), grey(0x8c), grey(0xb0));

    private static final Greys WHITE = new Greys(
            grey(0xff), grey(0xf1), grey(0xdc), grey(0xe8), grey(0xb4), grey(0x76), grey(0x33), grey(0x5a), grey(0x0c));

    static Greys on(Paper paper) {
        return paper == Paper.DARK ? DARK : WHITE;
    }

    private static Color grey(int value) {
        return new Color(value, value, value);
    }
}
