package panelbook.app.rest;

import java.util.List;
import java.util.UUID;
import panelbook.wire.FieldProblem;

/**
 * The service says no, in words that tell what is wrong and what to do. It becomes an RFC 9457 problem; whatever was
 * under way is rolled back.
 */
public final class Refusal extends RuntimeException {

    /** Why, as a stable problem type. */
    public enum Kind {
        /** The request is not of the contract's form, or a value is out of range. */
        INVALID(400, "The request is not right"),
        /** No valid token. */
        UNAUTHENTICATED(401, "Who is asking?"),
        /** The token's role may not do this. */
        FORBIDDEN(403, "Your role may not do this"),
        /** What the request names does not exist. */
        NOT_FOUND(404, "There is no such thing"),
        /** It contradicts what is in the book. */
        CONFLICT(409, "It contradicts the book"),
        /** The thing was edited since it was read. */
        STALE(412, "It was edited since you read it"),
        /** More than one request takes. */
        TOO_LARGE(413, "Too much at once"),
        /** An edit without If-Match. */
        MATCH_REQUIRED(428, "Say which version you edit"),
        /** The same again too soon, or more at once than the service has room for. */
        TOO_MANY(429, "Not so many at once");

        private final int status;
        private final String title;

        Kind(int status, String title) {
            this.status = status;
            this.title = title;
        }

        /** HTTP status. */
        public int status() {
            return status;
        }

        /** Title of the problem, for people. */
        public String title() {
            return title;
        }

        /** Stable type, a relative URI reference. */
        public String type() {
            return "/problems/" + name().toLowerCase(java.util.Locale.ROOT).replace('_', '-');
        }
    }

    private final Kind kind;
    private final List<FieldProblem> errors;

    private Refusal(Kind kind, String detail, List<FieldProblem> errors) {
        super(detail);
        this.kind = kind;
        this.errors = List.copyOf(errors);
    }

    /** A refusal without a place in the request. */
    public static Refusal of(Kind kind, String detail) {
        return new Refusal(kind, detail, List.of());
    }

    /** A value of the request is wrong; {@code pointer} is a JSON pointer or a parameter's name. */
    public static Refusal invalid(String pointer, String detail) {
        return invalid(List.of(new FieldProblem(pointer, detail)));
    }

    /** Several values of the request are wrong; at least one. */
    public static Refusal invalid(List<FieldProblem> errors) {
        var first = errors.get(0);
        var more = errors.size() == 1 ? "" : " (and " + (errors.size() - 1) + " more)";
        return new Refusal(Kind.INVALID, first.pointer() + ": " + first.detail() + more, errors);
    }

    /** {@code what} in the words of the book, e.g. "room". */
    public static Refusal notFound(String what, UUID id) {
        return of(Kind.NOT_FOUND, "There is no " + what + " " + id + ".");
    }

    /** It contradicts what is in the book. */
    public static Refusal conflict(String detail) {
        return of(Kind.CONFLICT, detail);
    }

    /** Why. */
    public Kind kind() {
        return kind;
    }

    /** Each place in the request that is wrong. */
    public List<FieldProblem> errors() {
        return errors;
    }
}
