package panelbook.app.notifying;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Random;
import java.util.UUID;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The waits before a message is tried again. */
class BackoffTest {

    private static final Duration FIRST = Duration.ofSeconds(10);
    private static final Duration LONGEST = Duration.ofHours(1);

    static LongStream seeds() {
        return LongStream.range(0, 50);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void waitsDoubleUpToTheLongestAndSpreadByAFifthAtMost(long seed) {
        var random = new Random(seed);
        var id = new UUID(random.nextLong(), random.nextLong());
        for (var failures = 1; failures <= 200; failures++) {
            var plain = Math.min(10_000 * Math.pow(2, failures - 1), LONGEST.toMillis());
            var wait = Backoff.after(failures, id, FIRST, LONGEST);
            assertThat((double) wait.toMillis())
                    .as("after %s failures", failures)
                    .isBetween(plain * 0.8 - 1, plain * 1.2 + 1);
            assertThat(Backoff.after(failures, id, FIRST, LONGEST)).isEqualTo(wait);
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void receiversThatFailedTogetherAreNotTriedTogether(long seed) {
        var random = new Random(seed);
        var waits = LongStream.range(0, 100)
                .map(i -> Backoff.after(3, new UUID(random.nextLong(), random.nextLong()), FIRST, LONGEST)
                        .toMillis())
                .summaryStatistics();
        assertThat(waits.getMax() - waits.getMin())
                .as("spread of 100 waits, ms")
                .isGreaterThan(10_000);
    }
}
