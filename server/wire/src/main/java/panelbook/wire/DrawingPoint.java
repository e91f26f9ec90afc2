package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A point of a drawing.
 *
 * @param x in the unit of the axis
 * @param y in the unit of the axis
 * @param xLow least value that x may truly have, k = 2, or a bound; null where there is none
 * @param xHigh greatest; null likewise
 * @param yLow least value that y may truly have, k = 2, or a bound; null where there is none
 * @param yHigh greatest; null likewise
 * @param words what it is, as its mark says when pointed at; null for points that are no marks
 * @param runId the run that it was read from; null when it was not
 * @param at when it was taken; null when it was not, or has no time
 */
public record DrawingPoint(
        double x,
        double y,
        @Nullable Double xLow,
        @Nullable Double xHigh,
        @Nullable Double yLow,
        @Nullable Double yHigh,
        @Nullable String words,
        @Nullable UUID runId,
        @Nullable Instant at) {

    /** A point of a line or an outline. */
    public static DrawingPoint of(double x, double y) {
        return new DrawingPoint(x, y, null, null, null, null, null, null, null);
    }

    /** A point of a band. */
    public static DrawingPoint between(double x, double y, double yLow, double yHigh) {
        return new DrawingPoint(x, y, null, null, yLow, yHigh, null, null, null);
    }

    /** A mark that is no reading. */
    public static DrawingPoint mark(double x, double y, String words) {
        return new DrawingPoint(x, y, null, null, null, null, words, null, null);
    }

    /** A circle. */
    public static DrawingPoint circle(double x, double y, double radius, String words) {
        return new DrawingPoint(x, y, x - radius, x + radius, y - radius, y + radius, words, null, null);
    }

    /**
     * A reading.
     *
     * @param expanded uncertainty of y, k = 2; null where none is stated
     */
    public static DrawingPoint reading(
            double x, double y, @Nullable Double expanded, String words, UUID runId, @Nullable Instant at) {
        return new DrawingPoint(
                x,
                y,
                null,
                null,
                expanded == null ? null : y - expanded,
                expanded == null ? null : y + expanded,
                words,
                runId,
                at);
    }
}
