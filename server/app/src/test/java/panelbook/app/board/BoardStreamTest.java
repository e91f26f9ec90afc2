package panelbook.app.board;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.net.HttpURLConnection;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import panelbook.app.testing.Browser;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Display;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.Role;

/** An open page hears that something changed, by whichever instance, and no longer than it may. */
@Timeout(60)
class BoardStreamTest extends ServiceTest {

    @Test
    void anOpenPageHearsOfRunsAndAlertsInTheirRoomUntilItsSessionEnds() throws Exception {
        var token = newToken(Role.MANAGER, unique("onlooker"));
        var browser = browser();
        browser.signInByToken(token.secret());
        var studio = new Studio(engineer(), unique("studio"));
        var preset = studio.display(unique("Display"), "lcd");
        var display = engineer().get("/presets/" + preset).as(Preset.class).displayId();
        var room = engineer().get("/displays/" + display).as(Display.class).roomId();

        var stream = open(browser);
        var now = clock.advance(Duration.ofMinutes(10));
        studio.upload(studio.run(preset, Purpose.AS_LEFT, now, Studio.dimmed(0.5)));
        var heard = new ArrayList<>(List.of(next(stream), next(stream)));
        while (!heard.contains("run " + room) || !heard.contains("alert " + room)) {
            heard.add(next(stream));
        }

        engineer().post("/tokens/" + token.token().id() + "/revocation").expect(200);
        studio.upload(studio.run(preset, Purpose.CHECK, now.plusSeconds(60), Studio.dimmed(0.5)));
        for (var line = stream.readLine(); line != null; line = stream.readLine()) {
            assertThat(line).as("nothing is told once the session is over").doesNotStartWith("event");
        }
    }

    @Test
    void whoIsNotSignedInHearsNothing() {
        assertThat(browser().get("/board/stream").statusCode()).isEqualTo(401);
    }

    private static BufferedReader open(Browser browser) throws Exception {
        var connection =
                (HttpURLConnection) browser.uri("/board/stream").toURL().openConnection();
        connection.setRequestProperty("Cookie", browser.cookieHeader());
        assertThat(connection.getResponseCode()).isEqualTo(200);
        assertThat(connection.getContentType()).startsWith("text/event-stream");
        return new BufferedReader(new InputStreamReader(connection.getInputStream(), StandardCharsets.UTF_8));
    }

    /** The next event: its name and its data. */
    private static String next(BufferedReader stream) throws Exception {
        var event = "";
        for (var line = stream.readLine(); line != null; line = stream.readLine()) {
            if (line.startsWith("event:")) {
                event = line.substring(6).strip();
            } else if (line.startsWith("data:")) {
                return event + " " + line.substring(5).strip();
            }
        }
        throw new AssertionError("the stream ended");
    }
}
