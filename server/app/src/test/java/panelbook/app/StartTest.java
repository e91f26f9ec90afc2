package panelbook.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.ServerSocket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The service as a program of its own, on its embedded database. */
class StartTest {

    private static final String TOKEN = "panelbook_[A-Za-z0-9_-]{43}";
    private static final HttpClient CLIENT = HttpClient.newHttpClient();

    @TempDir
    private Path folder;

    @Test
    void theFirstTokenIsPrintedOnceAndTheBookOutlivesTheService() throws Exception {
        var first = new Service(1);
        first.untilReady();
        var token = first.output()
                .lines()
                .map(String::strip)
                .filter(line -> line.matches(TOKEN))
                .findFirst();
        first.stop();
        assertThat(token)
                .as("the token is printed on a line of its own: %s", first.output())
                .isPresent();
        assertThat(folder.resolve("data/postmaster.pid"))
                .as("no server stays behind")
                .doesNotExist();

        var second = new Service(2);
        second.untilReady();
        assertThat(second.status("/api/v1/identity", token.orElseThrow())).isEqualTo(200);
        second.stop();

        assertThat(second.output()).as("the token is never printed again").doesNotContainPattern(TOKEN);
    }

    private final class Service {

        private final Path output;
        private final int port = freePort();
        private final Process process;

        private Service(int start) throws IOException {
            output = folder.resolve("output-" + start);
            process = new ProcessBuilder(
                            Path.of(System.getProperty("java.home"), "bin", "java")
                                    .toString(),
                            "-XX:TieredStopAtLevel=1",
                            "-cp",
                            System.getProperty("java.class.path"),
                            PanelbookApplication.class.getName(),
                            "--server.port=" + port,
                            "--panelbook.data-folder=" + folder.resolve("postgres"))
                    .redirectErrorStream(true)
                    .redirectOutput(output.toFile())
                    .start();
        }

        /** The readiness probe says yes only after the first token was shown. */
        private void untilReady() throws Exception {
            var deadline = System.nanoTime() + TimeUnit.SECONDS.toNanos(90);
            while (status("/actuator/health/readiness", "") != 200) {
                assertThat(process.isAlive()).as(output()).isTrue();
                assertThat(System.nanoTime())
                        .as("ready within 90 s: %s", output())
                        .isLessThan(deadline);
                process.waitFor(100, TimeUnit.MILLISECONDS);
            }
        }

        private int status(String path, String token) throws InterruptedException {
            var request = HttpRequest.newBuilder(URI.create("http://127.0.0.1:" + port + path));
            if (!token.isEmpty()) {
                request.header("Authorization", "Bearer " + token);
            }
            try {
                return CLIENT.send(request.build(), HttpResponse.BodyHandlers.discarding())
                        .statusCode();
            } catch (IOException notYet) {
                return 0;
            }
        }

        private void stop() throws InterruptedException {
            process.destroy();
            assertThat(process.waitFor(30, TimeUnit.SECONDS))
                    .as("it stops when asked to")
                    .isTrue();
        }

        private String output() throws IOException {
            return Files.readString(output);
        }
    }

    private static int freePort() {
        try (var socket = new ServerSocket(0)) {
            return socket.getLocalPort();
        } catch (IOException failed) {
            throw new AssertionError(failed);
        }
    }
}
