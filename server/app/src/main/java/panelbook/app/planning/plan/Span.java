package panelbook.app.planning.plan;

/**
 * A stretch of time.
 *
 * @param from minutes from the start of the problem
 * @param to minutes from the start of the problem, excluded, above {@code from}
 */
public record Span(int from, int to) {
    public Span {
        if (from >= to) {
            throw new IllegalArgumentException("a span must end after it starts, but goes from " + from + " to " + to);
        }
    }
}
