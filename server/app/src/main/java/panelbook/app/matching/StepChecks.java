package panelbook.app.matching;

import java.time.Instant;
import org.jspecify.annotations.Nullable;
import panelbook.app.rest.Checks;
import panelbook.wire.Observation;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;
import panelbook.wire.Trim;

/** Checks that a step says what its kind asks for, and nothing else. */
final class StepChecks {

    private StepChecks() {}

    /** Refuses a step that is not of its kind's form, with all that is wrong. */
    static void check(StepDraft draft, Instant now) {
        var checks = new Checks().that(draft.number() >= 1, "/number", "Must be 1 or more.");
        DraftChecks.past(checks, "/at", draft.at(), now);
        var kind = draft.kind();
        part(checks, kind == StepKind.OBSERVATION, kind, "/observation", draft.observation());
        part(checks, kind == StepKind.TRIM, kind, "/trim", draft.trim());
        part(checks, kind == StepKind.VERDICT, kind, "/verdict", draft.verdict());
        part(checks, kind == StepKind.READING, kind, "/runId", draft.runId());
        part(checks, kind == StepKind.RETURN, kind, "/returnTo", draft.returnTo());
        part(checks, kind == StepKind.OVERRIDE, kind, "/control", draft.control());
        part(checks, kind == StepKind.OVERRIDE, kind, "/level", draft.level());
        observation(checks, draft.observation());
        trim(checks, draft.trim());
        note(checks, draft);
        checks.optionalLine("/control", draft.control(), 100)
                .optionalLine("/level", draft.level(), 100)
                .refuse();
    }

    private static void part(Checks checks, boolean wanted, StepKind kind, String pointer, @Nullable Object given) {
        checks.that(!wanted || given != null, pointer, "A step of the kind \"" + kind + "\" needs it.")
                .that(wanted || given == null, pointer, "Does not go with the kind \"" + kind + "\": leave it out.");
    }

    private static void observation(Checks checks, @Nullable Observation seen) {
        if (seen != null) {
            checks.optionalLine("/observation/colour", seen.colour(), 200)
                    .text("/observation/material", seen.material(), 10_000);
        }
    }

    private static void trim(Checks checks, @Nullable Trim trim) {
        if (trim != null) {
            DraftChecks.trim(checks, "/trim", trim)
                    .that(trim.clicks() != 0, "/trim/clicks", "Must not be 0: a trim turns its control.");
        }
    }

    private static void note(Checks checks, StepDraft draft) {
        var needed = draft.kind() == StepKind.NOTE || draft.kind() == StepKind.OVERRIDE;
        var note = draft.note();
        checks.that(
                        !needed || (note != null && !note.isBlank()),
                        "/note",
                        draft.kind() == StepKind.OVERRIDE
                                ? "Must say why the trim is to stand: the reason stays on the record."
                                : "Must not be empty.")
                .text("/note", note, 10_000);
    }
}
