package panelbook.colorimetry.forecast;

import java.time.Duration;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * The figures of one preset, parted where what came before says nothing about what comes after.
 *
 * @param segments in order of time, each with one panel, one baseline and a counter that only rises
 * @param doubtful points whose counter ran faster than the clock and then fell back: typing errors, most likely. They are
 *     in no segment; somebody should be asked about them
 */
public record Series<T>(List<Segment<T>> segments, List<SeriesPoint<T>> doubtful) {
    /** What a counter may run ahead of the clock, h: readings are taken at a visit, counters read a little earlier. */
    static final double CLOCK_SLACK_HOURS = 2;

    public Series {
        segments = List.copyOf(segments);
        doubtful = List.copyOf(doubtful);
    }

    /** Why a segment begins. */
    public enum Start {
        /** Nothing lies before. */
        FIRST,
        /** The panel was replaced. */
        PANEL_SWAP,
        /** The counter went back although the panel is the same. */
        COUNTER_RESET,
        /** The counter ran faster than the clock and stayed there: another counter, or one set by hand. */
        COUNTER_JUMP,
        /** Another baseline is in force. */
        RECALIBRATION
    }

    /**
     * A part of the series that may be taken as one.
     *
     * @param start why it begins
     * @param points one or more, in order of time; panel hours never fall
     */
    public record Segment<T>(Start start, List<SeriesPoint<T>> points) {
        public Segment {
            points = List.copyOf(points);
            if (points.isEmpty()) {
                throw new IllegalArgumentException("a segment holds at least one point");
            }
            for (int i = 1; i < points.size(); i++) {
                if (points.get(i).panelHours() < points.get(i - 1).panelHours()) {
                    throw new IllegalArgumentException("panel hours of a segment must not fall, but go from "
                            + points.get(i - 1).panelHours() + " to "
                            + points.get(i).panelHours()
                            + "; split the series first");
                }
            }
        }

        /**
         * The latest point.
         *
         * @return what was measured last
         */
        public SeriesPoint<T> last() {
            return points.get(points.size() - 1);
        }

        /**
         * Panel hours over which it was observed.
         *
         * @return last less first, h
         */
        public double observedHours() {
            return last().panelHours() - points.get(0).panelHours();
        }

        double[] hours() {
            return points.stream().mapToDouble(SeriesPoint::panelHours).toArray();
        }

        /**
         * Times without a reading. They part nothing: ageing goes by panel hours, and these go on.
         *
         * @param longerThan least time between two points
         * @return the later points of such pairs, in order
         */
        public List<SeriesPoint<T>> afterGapsOf(Duration longerThan) {
            List<SeriesPoint<T>> after = new ArrayList<>();
            for (int i = 1; i < points.size(); i++) {
                Duration between =
                        Duration.between(points.get(i - 1).at(), points.get(i).at());
                if (between.compareTo(longerThan) > 0) {
                    after.add(points.get(i));
                }
            }
            return after;
        }
    }

    /**
     * Parts a series.
     *
     * @param points in any order
     * @return segments at swaps of the panel, resets and jumps of the counter and new baselines; of several reasons the
     *     first in this order is named
     */
    public static <T> Series<T> split(List<SeriesPoint<T>> points) {
        List<SeriesPoint<T>> sorted = new ArrayList<>(points);
        sorted.sort(Comparator.comparing((SeriesPoint<T> p) -> p.at()).thenComparing(SeriesPoint::panelHours));
        List<SeriesPoint<T>> doubtful = doubtful(sorted);
        sorted.removeAll(doubtful);
        List<Segment<T>> segments = new ArrayList<>();
        Start start = Start.FIRST;
        List<SeriesPoint<T>> current = new ArrayList<>();
        for (SeriesPoint<T> point : sorted) {
            Optional<Start> breaks =
                    current.isEmpty() ? Optional.empty() : breaks(current.get(current.size() - 1), point);
            if (breaks.isPresent()) {
                segments.add(new Segment<>(start, current));
                current = new ArrayList<>();
                start = breaks.get();
            }
            current.add(point);
        }
        if (!current.isEmpty()) {
            segments.add(new Segment<>(start, current));
        }
        return new Series<>(segments, doubtful);
    }

    /**
     * The part that forecasts rest on.
     *
     * @return the last segment; empty when there is none
     */
    public Optional<Segment<T>> latest() {
        return segments.isEmpty() ? Optional.empty() : Optional.of(segments.get(segments.size() - 1));
    }

    private static <T> Optional<Start> breaks(SeriesPoint<T> before, SeriesPoint<T> now) {
        if (!before.panel().equals(now.panel())) {
            return Optional.of(Start.PANEL_SWAP);
        }
        if (now.panelHours() < before.panelHours()) {
            return Optional.of(Start.COUNTER_RESET);
        }
        if (outrunsClock(before, now)) {
            return Optional.of(Start.COUNTER_JUMP);
        }
        return before.baseline().equals(now.baseline()) ? Optional.empty() : Optional.of(Start.RECALIBRATION);
    }

    /** Out of line with the points before and after, which are in line with each other. */
    private static <T> List<SeriesPoint<T>> doubtful(List<SeriesPoint<T>> sorted) {
        List<SeriesPoint<T>> doubtful = new ArrayList<>();
        for (int i = 1; i + 1 < sorted.size(); i++) {
            SeriesPoint<T> before = sorted.get(i - 1);
            SeriesPoint<T> now = sorted.get(i);
            SeriesPoint<T> after = sorted.get(i + 1);
            if (follows(before, after) && !(follows(before, now) && follows(now, after))) {
                doubtful.add(now);
                i++;
            }
        }
        return doubtful;
    }

    private static <T> boolean follows(SeriesPoint<T> before, SeriesPoint<T> after) {
        return before.panel().equals(after.panel())
                && after.panelHours() >= before.panelHours()
                && !outrunsClock(before, after);
    }

    private static <T> boolean outrunsClock(SeriesPoint<T> before, SeriesPoint<T> now) {
        return now.panelHours() - before.panelHours()
                > hours(Duration.between(before.at(), now.at())) + CLOCK_SLACK_HOURS;
    }

    static double hours(Duration duration) {
        return duration.toMillis() / 3.6e6;
    }
}
