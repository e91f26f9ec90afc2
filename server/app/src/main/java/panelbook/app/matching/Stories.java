package panelbook.app.matching;

import java.time.Clock;
import java.time.Instant;
import java.util.HashSet;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.matching.advice.AdviceBook;
import panelbook.app.matching.story.Guards;
import panelbook.app.matching.story.Step;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.app.runs.RunBook;
import panelbook.wire.AdviceMoment;
import panelbook.wire.Condition;
import panelbook.wire.GivingUp;
import panelbook.wire.GuardDecision;
import panelbook.wire.MatchStory;
import panelbook.wire.OpeningDraft;
import panelbook.wire.StepAnswer;
import panelbook.wire.StepDraft;
import panelbook.wire.StoryState;

/** Opens matches and takes in their steps, one after the other. */
@Service
class Stories {

    private static final String STORY = "match";

    private final StoryRows rows;
    private final StoryViews views;
    private final StoryGuards guards;
    private final Pairs pairs;
    private final Conditions conditions;
    private final AdviceBook advice;
    private final StepAdvice stepAdvice;
    private final RunBook runs;
    private final Clock clock;

    Stories(
            StoryRows rows,
            StoryViews views,
            StoryGuards guards,
            Pairs pairs,
            Conditions conditions,
            AdviceBook advice,
            StepAdvice stepAdvice,
            RunBook runs,
            Clock clock) {
        this.rows = rows;
        this.views = views;
        this.guards = guards;
        this.pairs = pairs;
        this.conditions = conditions;
        this.advice = advice;
        this.stepAdvice = stepAdvice;
        this.runs = runs;
        this.clock = clock;
    }

    /**
     * Opens a match, whatever its conditions; the same draft again is answered with the match as it stands.
     *
     * @throws Refusal when the two are not a follower and the hero of its room, or another match has this id
     */
    @Transactional
    Added<MatchStory> open(OpeningDraft draft, Caller caller) {
        var known = rows.find(draft.id());
        if (known.isPresent()) {
            return new Added<>(repeated(draft, known.get()), false);
        }
        var now = clock.instant();
        check(draft, now);
        var pair = pairs.of(draft.followerPresetId(), draft.heroPresetId());
        var openedAt = Rows.kept(draft.openedAt() == null ? now : draft.openedAt());
        var met = conditions.of(draft, pair, openedAt);
        var isNew = rows.insert(draft, openedAt, met, adviceOf(met), now, caller);
        var story = story(draft.id());
        // when it is not new, a rival brought the same opening meanwhile: its transaction has ended by now
        return new Added<>(isNew ? views.of(story) : repeated(draft, story), isNew);
    }

    private List<String> adviceOf(List<Condition> met) {
        return Conditions.suspectPath(met)
                ? advice.at(AdviceMoment.BIG_DIFFERENCE, AdviceMoment.OPENING)
                : advice.at(AdviceMoment.OPENING);
    }

    private MatchStory repeated(OpeningDraft draft, StoredStory known) {
        var there = known.opening();
        var same = there.followerPresetId().equals(draft.followerPresetId())
                && there.heroPresetId().equals(draft.heroPresetId())
                && there.operator().equals(draft.operator())
                && Objects.equals(there.instrumentId(), draft.instrumentId())
                && Objects.equals(there.followerMinutesSincePowerOn(), draft.followerMinutesSincePowerOn())
                && Objects.equals(there.heroMinutesSincePowerOn(), draft.heroMinutesSincePowerOn())
                && Objects.equals(there.lightsAtViewingLevel(), draft.lightsAtViewingLevel())
                && new HashSet<>(there.startingTrims()).equals(new HashSet<>(draft.startingTrims()))
                && (draft.openedAt() == null || Rows.kept(draft.openedAt()).equals(known.openedAt()));
        Repeats.mustBeSame(same, STORY, draft.id());
        return views.of(known);
    }

    private static void check(OpeningDraft draft, Instant now) {
        var checks = new Checks().line("/operator", draft.operator(), 200);
        minutes(checks, "/followerMinutesSincePowerOn", draft.followerMinutesSincePowerOn());
        minutes(checks, "/heroMinutesSincePowerOn", draft.heroMinutesSincePowerOn());
        DraftChecks.past(checks, "/openedAt", draft.openedAt(), now);
        DraftChecks.trims(checks, "/startingTrims", draft.startingTrims()).refuse();
    }

    private static void minutes(Checks checks, String pointer, @Nullable Integer minutes) {
        if (minutes != null) {
            checks.range(pointer, minutes, 0, 1_000_000);
        }
    }

    /** A story as it stands. */
    @Transactional(readOnly = true)
    MatchStory get(UUID id) {
        return views.of(story(id));
    }

    private StoredStory story(UUID id) {
        return rows.find(id).orElseThrow(() -> Refusal.notFound(STORY, id));
    }

    /** The story, while nobody else may add to it. */
    StoredStory locked(UUID id) {
        if (!rows.lock(id)) {
            throw Refusal.notFound(STORY, id);
        }
        return story(id);
    }

    /**
     * Adds a step; the same step again is answered with its answer of then.
     *
     * @throws Refusal when the step is not of its kind's form, its number is not the next one, the match is closed, or its run
     *     is not on one of the two
     */
    @Transactional
    Added<StepAnswer> add(UUID storyId, StepDraft draft, Caller caller) {
        var now = clock.instant();
        StepChecks.check(draft, now);
        var stored = locked(storyId);
        var known = stored.story().steps().stream()
                .filter(step -> step.said().id().equals(draft.id()))
                .findFirst();
        if (known.isPresent()) {
            Repeats.mustBeSame(known.get().said().equals(kept(draft)), "step", draft.id());
            return new Added<>(answer(stored.telling(stored.story().until(draft.number()))), false);
        }
        mustBeOpen(stored);
        mustBeNext(stored, draft);
        mustMakeSense(stored, draft);
        if (!rows.insert(storyId, draft, now, caller)) {
            throw Refusal.conflict("A step of another match has the id " + draft.id() + ": give this one its own.");
        }
        return new Added<>(answer(story(storyId)), true);
    }

    private static StepDraft kept(StepDraft draft) {
        return new StepDraft(
                draft.id(),
                draft.number(),
                draft.kind(),
                draft.observation(),
                draft.trim(),
                draft.verdict(),
                draft.runId(),
                draft.returnTo(),
                draft.control(),
                draft.level(),
                draft.note(),
                Rows.kept(draft.at()));
    }

    /** Refuses to change a match that has ended. */
    static void mustBeOpen(StoredStory stored) {
        if (stored.state() != StoryState.OPEN) {
            throw Refusal.conflict("This match was "
                    + (stored.state() == StoryState.SIGNED ? "signed off" : "given up")
                    + " and takes no more: open a new one for " + stored.follower() + ".");
        }
    }

    private static void mustBeNext(StoredStory stored, StepDraft draft) {
        var next = stored.story().steps().size() + 1;
        if (draft.number() != next) {
            throw Refusal.conflict("The next step of this match is number " + next + ", but this one says "
                    + draft.number() + ": read the match again and number your step " + next + ".");
        }
    }

    private void mustMakeSense(StoredStory stored, StepDraft draft) {
        var returnTo = draft.returnTo();
        if (returnTo != null && (returnTo < 0 || returnTo >= draft.number())) {
            throw Refusal.invalid("/returnTo", "must be the number of an earlier step, or 0 for how the match began");
        }
        if (draft.runId() != null) {
            mustBeOfPair(stored, draft.runId());
        }
        if (draft.trim() != null) {
            mustStayInBounds(stored, draft);
        }
    }

    private void mustBeOfPair(StoredStory stored, UUID runId) {
        var run = runs.counted(runId)
                .orElseThrow(() -> Refusal.invalid(
                        "/runId",
                        "there is no run " + runId + " that counts: upload it first, with the purpose match"));
        var opening = stored.opening();
        if (!run.presetId().equals(opening.followerPresetId())
                && !run.presetId().equals(opening.heroPresetId())) {
            throw Refusal.invalid(
                    "/runId",
                    "run " + runId + " is neither of " + stored.follower() + " nor of " + stored.hero()
                            + ": name a run of one of the two");
        }
    }

    private static void mustStayInBounds(StoredStory stored, StepDraft draft) {
        var step = new Step(draft, null, "");
        stored.story().with(step).now().trims().forEach(trim -> {
            if (Math.abs((long) trim.clicks()) > DraftChecks.MOST_CLICKS) {
                throw Refusal.invalid(
                        "/trim/clicks",
                        trim.control() + " would stand at " + trim.clicks() + ", more than any control has");
            }
        });
    }

    private StepAnswer answer(StoredStory stored) {
        var story = stored.story();
        var step = story.steps().get(story.steps().size() - 1);
        var said = guards.of(stored.opening().followerPresetId(), story);
        return new StepAnswer(
                views.step(story, step, story.inForce(), said),
                stepAdvice.after(step, stored),
                story.now().trims(),
                said.map(Guards::standing).orElse(List.of()).stream()
                        .filter(report -> report.decision() != GuardDecision.OVERRIDDEN)
                        .toList());
    }

    /** Closes a match without a sign-off; the same reason again is harmless. */
    @Transactional
    MatchStory giveUp(UUID storyId, GivingUp givingUp, Caller caller) {
        new Checks()
                .that(!givingUp.reason().isBlank(), "/reason", "Must not be empty: say why.")
                .text("/reason", givingUp.reason(), 10_000)
                .refuse();
        var stored = locked(storyId);
        if (!givingUp.reason().equals(stored.endedBecause())) {
            mustBeOpen(stored);
            rows.giveUp(storyId, givingUp.reason(), clock.instant(), caller);
        }
        return get(storyId);
    }
}
