package panelbook.app.alerts;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.InputStreamReader;
import java.net.HttpURLConnection;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Acknowledgement;
import panelbook.wire.Alert;
import panelbook.wire.Closure;
import panelbook.wire.Purpose;
import panelbook.wire.Role;

/** Whoever follows alerts sees each step once and in order, and resumes where it broke off. */
@Timeout(60)
class AlertStreamTest extends ServiceTest {

    private Studio studio;
    private String token;

    @BeforeEach
    void enterAStudio() {
        studio = new Studio(engineer(), unique("studio"));
        token = newToken(Role.MANAGER, unique("follower")).secret();
    }

    @Test
    void aFollowerSeesEachStepAsItHappensAndResumesWithoutAGap() throws Exception {
        var first = openAlert();
        var since = lastSequenceOf(first) - 1;
        List<String> seen;
        try (var stream = follow("?since=" + since, null)) {
            assertThat(stream.next()).startsWith("opened " + first);
            engineer().post("/alerts/" + first + "/acknowledgement", new Acknowledgement("seen"));
            assertThat(stream.next()).startsWith("acknowledged " + first);
            seen = List.of(stream.lastId);
        }
        engineer().post("/alerts/" + first + "/closure", new Closure("gone"));
        var second = openAlert();
        try (var stream = follow("", seen.get(0))) {
            assertThat(stream.next()).as("what happened meanwhile comes first").startsWith("closed " + first);
            assertThat(stream.next()).startsWith("opened " + second);
        }
    }

    @Test
    void twoFollowersSeeTheSameInTheSameOrder() throws Exception {
        var since = lastSequenceOf(openAlert());
        try (var one = follow("?since=" + since, null);
                var other = follow("?since=" + since, null)) {
            var opened = new ArrayList<UUID>();
            for (var i = 0; i < 3; i++) {
                opened.add(openAlert());
            }
            for (var alert : opened) {
                assertThat(one.next()).startsWith("opened " + alert);
                assertThat(other.next()).startsWith("opened " + alert);
            }
        }
    }

    @Test
    void aStreamGoesOnWhenTheDatabaseDropsTheConnectionThatItListensOn() throws Exception {
        var since = lastSequenceOf(openAlert());
        try (var stream = follow("?since=" + since, null)) {
            var first = openAlert();
            assertThat(stream.next()).startsWith("opened " + first);
            assertThat(dropListeners()).as("connections that listened").isPositive();
            var second = openAlert();
            assertThat(stream.next()).startsWith("opened " + second);
        }
    }

    private static int dropListeners() throws Exception {
        try (var connection = DATABASE.connect();
                var statement = connection.createStatement();
                var dropped = statement.executeQuery("""
                        select count(pg_terminate_backend(pid)) from pg_stat_activity
                        where datname = current_database() and application_name = 'panelbook announcements'
                        """)) {
            dropped.next();
            return dropped.getInt(1);
        }
    }

    private UUID openAlert() {
        var preset = studio.display(unique("Display"), "lcd");
        var now = clock.advance(Duration.ofMinutes(10));
        var run = studio.run(preset, Purpose.AS_LEFT, now, Studio.dimmed(0.5));
        return studio.upload(run).alerts().get(0).alertId();
    }

    private long lastSequenceOf(UUID alert) {
        var history = engineer().get("/alerts/" + alert).as(Alert.class).history();
        return history.get(history.size() - 1).sequence();
    }

    private Stream follow(String query, String lastEventId) throws Exception {
        var connection = (HttpURLConnection)
                engineer().uri("/alerts/stream" + query).toURL().openConnection();
        connection.setRequestProperty("Authorization", "Bearer " + token);
        connection.setRequestProperty("Accept", "text/event-stream");
        if (lastEventId != null) {
            connection.setRequestProperty("Last-Event-ID", lastEventId);
        }
        assertThat(connection.getResponseCode()).isEqualTo(200);
        return new Stream(connection);
    }

    /** Reads events as a client does; each as its name and its alert. */
    private static final class Stream implements AutoCloseable {

        private final HttpURLConnection connection;
        private final BufferedReader lines;
        private String lastId = "";

        Stream(HttpURLConnection connection) throws Exception {
            this.connection = connection;
            this.lines = new BufferedReader(new InputStreamReader(connection.getInputStream(), StandardCharsets.UTF_8));
        }

        String next() throws Exception {
            var event = "";
            for (var line = lines.readLine(); line != null; line = lines.readLine()) {
                if (line.startsWith("id:")) {
                    lastId = line.substring(3).strip();
                } else if (line.startsWith("event:")) {
                    event = line.substring(6).strip();
                } else if (line.startsWith("data:")) {
                    var at = line.indexOf("\"alertId\":\"") + 11;
                    return event + " " + line.substring(at, at + 36);
                }
            }
            throw new AssertionError("the stream ended");
        }

        @Override
        public void close() {
            connection.disconnect();
        }
    }
}
