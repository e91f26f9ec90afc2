package panelbook.app.papers;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Where lines of papers end; house policy, no published source. */
class LineEndsTest {

    @Test
    void aFigureATimeAndADayStayWhole() {
        assertThat(parts("18 Oct 2026, 23:05")).containsExactly("18 ", "Oct ", "2026, ", "23:05");
        assertThat(parts("Δv′ +0.0098 since 2026-10-18.")).containsExactly("Δv′ ", "+0.0098 ", "since ", "2026-10-18.");
        assertThat(parts("0/716/0 at 5 cd/m²")).containsExactly("0/716/0 ", "at ", "5 ", "cd/m²");
    }

    @Test
    void aPathEndsALineAfterASlash() {
        assertThat(parts("North/Suite 1/Main")).containsExactly("North/", "Suite ", "1/", "Main");
    }

    private static List<String> parts(String text) {
        var ends = new LineEnds();
        ends.setText(text);
        var parts = new ArrayList<String>();
        var from = 0;
        for (var end = ends.next(); end > 0; end = ends.next()) {
            parts.add(text.substring(from, end));
            from = end;
        }
        return parts;
    }
}
