package panelbook.bench.load;

import java.util.Arrays;
import java.util.Locale;

/** How long something took, many times. */
final class Times {

    /** Something to be timed. */
    interface Work {
        void run(int round) throws Exception;
    }

    private final double[] sortedSeconds;

    private Times(double[] sortedSeconds) {
        this.sortedSeconds = sortedSeconds;
    }

    /**
     * Times something after some rounds that are not counted.
     *
     * @param work gets the number of the round, from 0, those not counted included
     */
    static Times of(int uncounted, int counted, Work work) throws Exception {
        var seconds = new double[counted];
        for (var round = 0; round < uncounted + counted; round++) {
            var begin = System.nanoTime();
            work.run(round);
            if (round >= uncounted) {
                seconds[round - uncounted] = (System.nanoTime() - begin) / 1e9;
            }
        }
        Arrays.sort(seconds);
        return new Times(seconds);
    }

    double median() {
        return sortedSeconds[sortedSeconds.length / 2];
    }

    /** Median and middle half, in ms. */
    String inMilliseconds() {
        return String.format(
                Locale.ROOT,
                "%.2f ms (middle half %.2f to %.2f, %d rounds)",
                1000 * median(),
                1000 * sortedSeconds[sortedSeconds.length / 4],
                1000 * sortedSeconds[3 * sortedSeconds.length / 4],
                sortedSeconds.length);
    }
}
