package panelbook.bench.load;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/** How long something took, many times. */
final class Times {

    /** Something to be timed. */
    interface Work {
        void run() throws Exception;
    }

    private final List<Double> seconds = new ArrayList<>();
    private int uncounted;

    /**
     * Starts with nothing timed.
     *
     * @param uncounted how many times are left out at first, while code is compiled and caches fill
     */
    Times(int uncounted) {
        this.uncounted = uncounted;
    }

    /** Times something once. */
    void time(Work work) throws Exception {
        var begin = System.nanoTime();
        work.run();
        var took = (System.nanoTime() - begin) / 1e9;
        if (uncounted > 0) {
            uncounted--;
        } else {
            seconds.add(took);
        }
    }

    double median() {
        return quantile(0.5);
    }

    /** Median and middle half, in ms. */
    String inMilliseconds() {
        return String.format(
                Locale.ROOT,
                "%.2f ms (middle half %.2f to %.2f, %d rounds)",
                1000 * median(),
                1000 * quantile(0.25),
                1000 * quantile(0.75),
                seconds.size());
    }

    private double quantile(double share) {
        return seconds.stream().sorted().toList().get((int) (share * (seconds.size() - 1)));
    }
}
