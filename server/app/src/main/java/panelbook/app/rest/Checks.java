package panelbook.app.rest;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.wire.FieldProblem;

/** Collects everything that is wrong with a request, so that its sender can put all of it right at once. */
public final class Checks {

    private static final int NAME_LENGTH = 200;

    private final List<FieldProblem> wrong = new ArrayList<>();

    /** Notes {@code detail} at {@code pointer} unless {@code holds}. */
    public Checks that(boolean holds, String pointer, String detail) {
        if (!holds) {
            wrong.add(new FieldProblem(pointer, detail));
        }
        return this;
    }

    /**
     * A name that stands in a path such as facility/room/display/preset: 1 to 200 characters, no slash, no control
     * character, no blank at either end, and not the "-" that stands for "no room".
     */
    public Checks name(String pointer, String value) {
        line(pointer, value, NAME_LENGTH);
        that(value.indexOf('/') < 0, pointer, "A name holds no slash: it parts the names of a path.");
        return that(!value.equals("-"), pointer, "\"-\" is no name: in a path it stands for no room.");
    }

    /** One line of 1 to {@code longest} characters without control characters and without blanks at either end. */
    public Checks line(String pointer, String value, int longest) {
        that(!value.isBlank(), pointer, "Must not be empty.");
        that(value.isBlank() || value.equals(value.strip()), pointer, "Must not begin or end with a blank.");
        that(value.chars().noneMatch(Character::isISOControl), pointer, "Must not hold control characters.");
        return length(pointer, value, longest);
    }

    /** One line as {@link #line}, or null. */
    public Checks optionalLine(String pointer, @Nullable String value, int longest) {
        return value == null ? this : line(pointer, value, longest);
    }

    /** Text of at most {@code longest} characters; line breaks and tabs are its only control characters. */
    public Checks text(String pointer, @Nullable String value, int longest) {
        if (value == null) {
            return this;
        }
        that(
                value.chars().noneMatch(c -> Character.isISOControl(c) && c != '\n' && c != '\r' && c != '\t'),
                pointer,
                "Must not hold control characters other than line breaks and tabs.");
        return length(pointer, value, longest);
    }

    /** A finite number from {@code leastInclusive} to {@code mostInclusive}. */
    public Checks range(String pointer, double value, double leastInclusive, double mostInclusive) {
        return that(
                value >= leastInclusive && value <= mostInclusive,
                pointer,
                "Must be from " + plain(leastInclusive) + " to " + plain(mostInclusive) + ", but is " + plain(value)
                        + ".");
    }

    /** Whether anything is wrong so far. */
    public boolean failed() {
        return !wrong.isEmpty();
    }

    /** Refuses the request with all that is wrong, or does nothing when nothing is. */
    public void refuse() {
        if (failed()) {
            throw Refusal.invalid(wrong);
        }
    }

    private Checks length(String pointer, String value, int longest) {
        var length = value.codePointCount(0, value.length());
        return that(
                length <= longest, pointer, "Must have at most " + longest + " characters, but has " + length + ".");
    }

    private static String plain(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : String.valueOf(value);
    }
}
