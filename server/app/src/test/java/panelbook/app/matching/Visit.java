package panelbook.app.matching;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.app.testing.Answer;
import panelbook.app.testing.Http;
import panelbook.app.testing.SettableClock;
import panelbook.wire.Look;
import panelbook.wire.MatchStory;
import panelbook.wire.Observation;
import panelbook.wire.OpeningDraft;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.Place;
import panelbook.wire.StepAnswer;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;
import panelbook.wire.Trim;

/** A calibrator at work on one match, step by step. */
final class Visit {

    private final Http calibrator;
    private final SettableClock clock;
    private @Nullable UUID id;
    private volatile int steps;

    Visit(Http calibrator, SettableClock clock) {
        this.calibrator = calibrator;
        this.clock = clock;
    }

    MatchStory open(OpeningDraft draft) {
        id = draft.id();
        steps = 0;
        return calibrator.post("/match-stories", draft).expect(201).as(MatchStory.class);
    }

    UUID id() {
        return java.util.Objects.requireNonNull(id, "a match that was opened");
    }

    MatchStory story() {
        return calibrator.get("/match-stories/" + id).expect(200).as(MatchStory.class);
    }

    Answer send(StepDraft draft) {
        var answer = calibrator.post("/match-stories/" + id + "/steps", draft);
        steps = answer.status() == 201 ? draft.number() : steps;
        return answer;
    }

    StepAnswer saw(Look look, Place place) {
        return made(draft(
                StepKind.OBSERVATION, new Observation(look, place, null, null), null, null, null, null, null, null));
    }

    StepAnswer trim(String control, int clicks) {
        return made(trimDraft(control, clicks));
    }

    StepDraft trimDraft(String control, int clicks) {
        return draft(StepKind.TRIM, null, new Trim(control, "all", clicks), null, null, null, null, null);
    }

    StepAnswer verdict(OperatorVerdict verdict) {
        return made(draft(StepKind.VERDICT, null, null, verdict, null, null, null, null));
    }

    StepAnswer reading(UUID runId) {
        return made(readingDraft(runId));
    }

    StepDraft readingDraft(UUID runId) {
        return draft(StepKind.READING, null, null, null, runId, null, null, null);
    }

    StepAnswer returnTo(int step) {
        return made(returnDraft(step));
    }

    StepDraft returnDraft(int step) {
        return draft(StepKind.RETURN, null, null, null, null, step, null, null);
    }

    StepAnswer override(String control, String reason) {
        return made(overrideDraft(control, reason));
    }

    StepDraft overrideDraft(String control, String reason) {
        return draft(StepKind.OVERRIDE, null, null, null, null, null, control, reason);
    }

    StepDraft numbered(int number, StepDraft draft) {
        return new StepDraft(
                draft.id(),
                number,
                draft.kind(),
                draft.observation(),
                draft.trim(),
                draft.verdict(),
                draft.runId(),
                draft.returnTo(),
                draft.control(),
                draft.level(),
                draft.note(),
                draft.at());
    }

    private StepAnswer made(StepDraft draft) {
        return send(draft).expect(201).as(StepAnswer.class);
    }

    private StepDraft draft(
            StepKind kind,
            @Nullable Observation seen,
            @Nullable Trim trim,
            @Nullable OperatorVerdict verdict,
            @Nullable UUID runId,
            @Nullable Integer returnTo,
            @Nullable String control,
            @Nullable String note) {
        return new StepDraft(
                UUID.randomUUID(),
                steps + 1,
                kind,
                seen,
                trim,
                verdict,
                runId,
                returnTo,
                control,
                control == null ? null : "all",
                note,
                clock.instant());
    }
}
