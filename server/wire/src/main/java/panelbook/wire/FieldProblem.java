package panelbook.wire;

/**
 * A place in a request that is wrong.
 *
 * @param pointer JSON pointer into the request body (RFC 6901), or the name of a parameter
 */
public record FieldProblem(String pointer, String detail) {}
