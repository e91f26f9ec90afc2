package panelbook.app.rest;

import java.util.UUID;
import panelbook.wire.Retirement;

/** What holds for every draft. */
public final class Repeats {

    private Repeats() {}

    /** A draft sent again is harmless; other content under the same id is not. */
    public static void mustBeSame(boolean same, String what, UUID id) {
        if (!same) {
            throw Refusal.conflict("There is a " + what + " " + id
                    + " already, and it says something else. A new " + what
                    + " needs an id of its own; to edit this one, use PUT.");
        }
    }

    /** An edit names the same thing in its path and in its body. */
    public static void mustBeAbout(UUID pathId, UUID bodyId) {
        if (!pathId.equals(bodyId)) {
            throw Refusal.invalid("/id", "Must be the id of the path, " + pathId + ".");
        }
    }

    /** Checks the reason of a retirement. */
    public static void check(Retirement retirement) {
        new Checks().text("/reason", retirement.reason(), 10_000).refuse();
    }
}
