package panelbook.app.rest;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;

class BodyLimitTest extends ServiceTest {

    @Test
    void aBodyWithoutLengthThatNeverEndsIsRefusedAndNotReadToItsEnd() throws Exception {
        var megabyte = " ".repeat(1 << 20).getBytes(StandardCharsets.US_ASCII);
        var request = HttpRequest.newBuilder(nobody().uri("/tokens"))
                .header("Authorization", "Bearer " + engineer().token())
                .header("Content-Type", "application/json")
                .POST(HttpRequest.BodyPublishers.ofInputStream(() -> blanks(megabyte, 66)))
                .build();

        var response = HttpClient.newHttpClient().send(request, HttpResponse.BodyHandlers.ofString());

        assertThat(response.statusCode()).isEqualTo(413);
        assertThat(response.body()).contains("/problems/too-large").contains("67108864 bytes");
    }

    private static InputStream blanks(byte[] part, int times) {
        var parts = IntStream.range(0, times)
                .mapToObj(i -> (InputStream) new ByteArrayInputStream(part))
                .toList();
        return new SequenceInputStream(Collections.enumeration(parts));
    }
}
