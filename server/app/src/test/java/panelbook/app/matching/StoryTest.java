package panelbook.app.matching;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Answer;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Advice;
import panelbook.wire.AdviceDraft;
import panelbook.wire.AdviceMoment;
import panelbook.wire.Condition;
import panelbook.wire.GivingUp;
import panelbook.wire.Holds;
import panelbook.wire.Look;
import panelbook.wire.Match;
import panelbook.wire.MatchStep;
import panelbook.wire.MatchStory;
import panelbook.wire.MatchWithdrawalDraft;
import panelbook.wire.OpeningDraft;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.Place;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Requirement;
import panelbook.wire.Restoration;
import panelbook.wire.Retirement;
import panelbook.wire.Role;
import panelbook.wire.RunUpload;
import panelbook.wire.StepAnswer;
import panelbook.wire.StepDraft;
import panelbook.wire.StorySignOffDraft;
import panelbook.wire.StoryState;
import panelbook.wire.Trim;

/** What happens in the room is kept as it happens: from the opening of a match, step by step. */
class StoryTest extends ServiceTest {

    private Studio studio;
    private UUID follower;
    private Visit visit;

    @BeforeEach
    void arrive() {
        studio = new Studio(engineer(), unique("studio"));
        follower = studio.display("Follower 1", "oled");
        clock.advance(Duration.ofMinutes(10));
        visit = new Visit(as(Role.CALIBRATOR), clock);
    }

    @Test
    void aMatchOfTwoDisplaysInOrderMeetsEveryCondition() {
        calibrate(follower, asAimed());
        calibrate(studio.hero(), asAimed());
        var story = visit.open(opening(studio.instrument(), 60, true));
        assertThat(story.conditions()).extracting(Condition::requirement).containsExactly(Requirement.values());
        assertThat(story.conditions())
                .allSatisfy(condition -> assertThat(condition.holds())
                        .as("%s: %s", condition.requirement(), condition.explanation())
                        .isEqualTo(Holds.YES));
        assertThat(story.state()).isEqualTo(StoryState.OPEN);
        assertThat(story.advice()).anyMatch(text -> text.startsWith("Look at many shots"));
    }

    @Test
    void whatIsNotTrueIsSaidWithWhatToDoAndTheMatchIsOpenedAllTheSame() {
        var expired = studio.meter(
                UUID.randomUUID(), unique("old meter"), clock.instant().minus(Duration.ofDays(3)));
        var story = visit.open(opening(expired, 5, false));
        assertThat(holds(story, Requirement.FOLLOWER_BASELINE)).isEqualTo(Holds.NO);
        assertThat(words(story, Requirement.FOLLOWER_BASELINE)).contains("upload the as-left run first");
        assertThat(holds(story, Requirement.FOLLOWER_SIGNAL_PATH)).isEqualTo(Holds.UNKNOWN);
        assertThat(words(story, Requirement.FOLLOWER_SIGNAL_PATH)).contains("measure five greys or more");
        assertThat(holds(story, Requirement.CONTRAST)).isEqualTo(Holds.UNKNOWN);
        assertThat(holds(story, Requirement.FOLLOWER_WARM_UP)).isEqualTo(Holds.NO);
        assertThat(words(story, Requirement.METER)).contains("expired").contains("take another meter");
        assertThat(holds(story, Requirement.VIEWING_LIGHT)).isEqualTo(Holds.NO);
    }

    @Test
    void whatNobodySaidIsUnknown() {
        var story = visit.open(opening(null, null, null));
        assertThat(holds(story, Requirement.HERO_WARM_UP)).isEqualTo(Holds.UNKNOWN);
        assertThat(holds(story, Requirement.METER)).isEqualTo(Holds.UNKNOWN);
        assertThat(holds(story, Requirement.VIEWING_LIGHT)).isEqualTo(Holds.UNKNOWN);
    }

    @Test
    void aRunOfTheDayTellsOfWarmUpWhenNobodySays() {
        calibrate(follower, asAimed());
        studio.upload(studio.run(
                studio.hero(),
                studio.instrument(),
                Purpose.AS_FOUND,
                clock.advance(Duration.ofMinutes(1)),
                3,
                asAimed()));
        var story = visit.open(opening(null, null, null));
        assertThat(holds(story, Requirement.FOLLOWER_WARM_UP)).isEqualTo(Holds.YES);
        assertThat(holds(story, Requirement.HERO_WARM_UP)).isEqualTo(Holds.NO);
    }

    @Test
    void aCalibrationOlderThanThePolicyAllowsIsStale() {
        calibrate(follower, asAimed());
        calibrate(studio.hero(), asAimed());
        clock.advance(Duration.ofDays(400));
        var story = visit.open(opening(studio.instrument(), 60, true));
        assertThat(holds(story, Requirement.FOLLOWER_BASELINE)).isEqualTo(Holds.NO);
        assertThat(words(story, Requirement.HERO_BASELINE)).contains("400 days").contains("calibrate it anew");
    }

    @Test
    void aNarrowSignalExpandedOnTheWayIsSuspectAndSoIsItsContrast() {
        calibrate(studio.hero(), asAimed());
        // what a display shows whose feed was squeezed: black lifted to the light of code 119 of 10 bit, white dimmed
        var codes = Studio.TARGET.codes();
        var whole = studio.run(follower, Purpose.AS_FOUND, clock.advance(Duration.ofMinutes(1)), asAimed());
        var squeezed = new ArrayList<ReadingEntry>();
        var shown = Studio.TARGET.on(Studio.TARGET.aims());
        for (var entry : whole.readings()) {
            if (entry.red() == entry.green() && entry.green() == entry.blue()) {
                var code = codes.toCode((64 + codes.toSignal(entry.red()) * 876) / 1023.0);
                var xyz = shown.of(panelbook.colorimetry.signal.Patch.grey(code));
                squeezed.add(new ReadingEntry(entry.red(), entry.green(), entry.blue(), xyz.x(), xyz.y(), xyz.z()));
            }
        }
        studio.upload(withReadings(whole, squeezed));
        var story = visit.open(opening(studio.instrument(), 60, true));
        assertThat(holds(story, Requirement.FOLLOWER_SIGNAL_PATH)).isEqualTo(Holds.NO);
        assertThat(words(story, Requirement.FOLLOWER_SIGNAL_PATH))
                .contains("full range squeezed to narrow")
                .contains("the range that the source puts out");
        assertThat(holds(story, Requirement.HERO_SIGNAL_PATH)).isEqualTo(Holds.YES);
        assertThat(holds(story, Requirement.CONTRAST)).isEqualTo(Holds.NO);
        assertThat(story.advice().get(0)).startsWith("A big, odd difference is a fault of the signal path");
    }

    @Test
    void theSameOpeningAgainIsTheSameMatchAndAnotherOneUnderItsIdIsRefused() {
        var draft = opening(studio.instrument(), 60, true);
        var first = visit.open(draft);
        assertThat(engineer().post("/match-stories", draft).expect(200).as(MatchStory.class))
                .isEqualTo(first);
        var other = new OpeningDraft(
                draft.id(), follower, studio.hero(), "operator B", null, null, null, null, List.of(), null);
        engineer().post("/match-stories", other).expect(409);
    }

    @Test
    void onlyAFollowerAndTheHeroOfItsRoomAreAMatch() {
        var other = studio.display("Follower 2", "lcd");
        var draft = new OpeningDraft(
                UUID.randomUUID(), follower, other, "operator A", null, null, null, null, List.of(), null);
        assertThat(engineer()
                        .post("/match-stories", draft)
                        .expect(409)
                        .problem()
                        .detail())
                .contains("is not the hero of the room");
    }

    @Test
    void goingPastTheRightSettingAndBackIsPartOfTheStory() {
        visit.open(opening(null, 60, true));
        visit.saw(Look.REDDER, Place.WHOLE_IMAGE);
        visit.trim("gain.red", -1);
        visit.verdict(OperatorVerdict.BETTER);
        visit.trim("gain.red", -2);
        visit.verdict(OperatorVerdict.WORSE);
        var back = visit.returnTo(3);
        assertThat(back.settings()).containsExactly(new Trim("gain.red", "all", -1));
        visit.trim("gain.blue", 1);
        var story = visit.story();
        assertThat(story.settings()).containsExactly(new Trim("gain.blue", "all", 1), new Trim("gain.red", "all", -1));
        assertThat(story.steps())
                .extracting(MatchStep::undone)
                .containsExactly(false, false, false, true, true, false, false);
        assertThat(story.steps().get(4).settings()).containsExactly(new Trim("gain.red", "all", -3));
    }

    @Test
    void aLaterReturnMayLeadToWhatAnEarlierOneWentBackBefore() {
        visit.open(opening(null, 60, true));
        visit.trim("gain.red", -1);
        visit.trim("gain.red", -1);
        visit.returnTo(0);
        assertThat(visit.story().settings()).isEmpty();
        visit.returnTo(2);
        var story = visit.story();
        assertThat(story.settings()).containsExactly(new Trim("gain.red", "all", -2));
        assertThat(story.steps()).extracting(MatchStep::undone).containsExactly(false, false, true, false);
    }

    @Test
    void theOpeningSaysHowTheControlsStoodAndAReturnToItLeadsThere() {
        var draft = new OpeningDraft(
                UUID.randomUUID(),
                follower,
                studio.hero(),
                "operator A",
                null,
                null,
                null,
                null,
                List.of(new Trim("bias.blue", "low", 1), new Trim("saturation", "all", 2)),
                null);
        visit.open(draft);
        assertThat(visit.trim("saturation", -2).settings()).containsExactly(new Trim("bias.blue", "low", 1));
        assertThat(visit.trim("bias.blue", 1).settings())
                .as("another level is another control")
                .containsExactly(new Trim("bias.blue", "all", 1), new Trim("bias.blue", "low", 1));
        assertThat(visit.returnTo(0).settings())
                .containsExactly(new Trim("bias.blue", "low", 1), new Trim("saturation", "all", 2));
    }

    @Test
    void adviceComesAtItsMoment() {
        visit.open(opening(null, 60, true));
        assertThat(visit.saw(Look.YELLOWER, Place.SHADOWS).advice())
                .singleElement()
                .satisfies(text -> assertThat(text)
                        .contains("confined to the dark half points at the bias controls")
                        .endsWith("First control: bias.blue."));
        assertThat(visit.saw(Look.GREENER, Place.SKIN).advice())
                .as("the line of the place alone, since none has both")
                .singleElement()
                .satisfies(text -> assertThat(text).contains("confined to skin"));
        assertThat(visit.trim("gain.red", 1).advice().get(0)).contains("at most one click above");
        assertThat(visit.trim("gain.red", -1).advice()).noneMatch(text -> text.contains("at most one click above"));
        assertThat(visit.verdict(OperatorVerdict.BETTER).advice())
                .anyMatch(text -> text.startsWith("Go past the right setting"))
                .anyMatch(text -> text.startsWith("Go back over the earlier decisions"));
    }

    @Test
    void aHouseEditsItsAdvice() {
        var calibrator = as(Role.CALIBRATOR);
        var draft = new AdviceDraft(
                UUID.randomUUID(),
                AdviceMoment.OBSERVATION,
                Look.MORE_MAGENTA,
                Place.HIGHLIGHTS,
                "gain.green",
                "Magenta highlights: rule out a clipped green first.",
                "house experience");
        var added = calibrator.post("/advice", draft).expect(201);
        calibrator.post("/advice", draft).expect(200);
        visit.open(opening(null, 60, true));
        assertThat(visit.saw(Look.MORE_MAGENTA, Place.HIGHLIGHTS).advice())
                .containsExactly("Magenta highlights: rule out a clipped green first. First control: gain.green.");
        var edited = new AdviceDraft(
                draft.id(), draft.moment(), draft.look(), draft.place(), null, "Look again.", "house experience");
        calibrator.put("/advice/" + draft.id(), edited, null).expect(428);
        var etag = calibrator
                .put("/advice/" + draft.id(), edited, added.etag())
                .expect(200)
                .etag();
        assertThat(calibrator.get("/advice/" + draft.id()).etag()).isEqualTo(etag);
        assertThat(visit.saw(Look.MORE_MAGENTA, Place.HIGHLIGHTS).advice()).containsExactly("Look again.");
        calibrator
                .post("/advice/" + draft.id() + "/retirement", new Retirement(null))
                .expect(200);
        assertThat(visit.saw(Look.MORE_MAGENTA, Place.HIGHLIGHTS).advice())
                .as("what comes with the book for any look in that place")
                .singleElement()
                .satisfies(text -> assertThat(text).contains("bright end points at the gains"));
        assertThat(calibrator.get("/advice?retired=true").asListOf(Advice.class))
                .anyMatch(advice -> advice.id().equals(draft.id()) && advice.retiredAt() != null);
        var misplaced = new AdviceDraft(UUID.randomUUID(), AdviceMoment.TRIM, Look.REDDER, null, null, "x", "x");
        assertThat(calibrator.post("/advice", misplaced).expect(400).problem().detail())
                .contains("/look");
    }

    @Test
    void aStepSentAgainIsTheSameStepAndAnotherUnderItsIdIsRefused() {
        visit.open(opening(null, 60, true));
        var draft = visit.trimDraft("gain.red", -1);
        var first = visit.send(draft).expect(201).as(StepAnswer.class);
        visit.trim("gain.red", -1);
        assertThat(visit.send(draft).expect(200).as(StepAnswer.class))
                .as("its answer of then, though a step followed")
                .isEqualTo(first);
        var other = new StepDraft(
                draft.id(),
                1,
                draft.kind(),
                null,
                new Trim("gain.red", "all", -5),
                null,
                null,
                null,
                null,
                null,
                null,
                draft.at());
        visit.send(other).expect(409);
        assertThat(visit.story().steps()).hasSize(2);
    }

    @Test
    void twoClientsThatAddTheSameNumberAtOnceMakeOneStep() throws Exception {
        visit.open(opening(null, 60, true));
        var drafts = List.of(visit.trimDraft("gain.red", -1), visit.trimDraft("gain.blue", -1));
        var pool = Executors.newFixedThreadPool(2);
        try {
            var answers = pool.invokeAll(drafts.stream()
                    .map(draft -> (Callable<Integer>) () -> visit.send(draft).status())
                    .toList());
            var statuses = new ArrayList<Integer>();
            for (var answer : answers) {
                statuses.add(answer.get());
            }
            assertThat(statuses).containsExactlyInAnyOrder(201, 409);
        } finally {
            pool.shutdownNow();
        }
        assertThat(visit.story().steps()).hasSize(1);
    }

    @Test
    void aStepOutOfOrderIsToldTheNextNumber() {
        visit.open(opening(null, 60, true));
        visit.trim("gain.red", -1);
        var gap = visit.numbered(5, visit.trimDraft("gain.red", -1));
        assertThat(visit.send(gap).expect(409).problem().detail()).contains("The next step of this match is number 2");
    }

    @Test
    void aReadingIsOfARunThatWasUploadedOnOneOfTheTwo() {
        visit.open(opening(null, 60, true));
        var unknown = visit.readingDraft(UUID.randomUUID());
        assertThat(visit.send(unknown).expect(400).problem().detail()).contains("upload it first");
        var other = studio.run(studio.display("Follower 2", "lcd"), Purpose.MATCH, clock.instant(), asAimed());
        studio.upload(other);
        assertThat(visit.send(visit.readingDraft(other.id()))
                        .expect(400)
                        .problem()
                        .detail())
                .contains("name a run of one of the two");
        var ofHero = studio.run(studio.hero(), Purpose.MATCH, clock.instant(), asAimed());
        studio.upload(ofHero);
        assertThat(visit.reading(ofHero.id()).step().ofHero()).isTrue();
    }

    @Test
    void readingsFarApartCallForALookAtTheSignalPath() {
        visit.open(opening(null, 60, true));
        var hero = studio.run(studio.hero(), Purpose.MATCH, clock.instant(), asAimed());
        var dim = studio.run(follower, Purpose.MATCH, clock.instant(), Studio.dimmed(0.5));
        studio.upload(hero);
        studio.upload(dim);
        assertThat(visit.reading(hero.id()).advice()).isEmpty();
        assertThat(visit.reading(dim.id()).advice())
                .singleElement()
                .satisfies(text -> assertThat(text).startsWith("A big, odd difference"));
    }

    @Test
    void aStepSaysWhatItsKindAsksForAndNothingElse() {
        visit.open(opening(null, 60, true));
        var draft = visit.trimDraft("gain.red", 0);
        assertThat(visit.send(draft).expect(400).problem().detail()).contains("/trim/clicks");
        assertThat(visit.send(visit.returnDraft(1)).expect(400).problem().detail())
                .contains("/returnTo");
        assertThat(visit.send(visit.overrideDraft("gain.red", " "))
                        .expect(400)
                        .problem()
                        .detail())
                .contains("reason stays on the record");
        assertThat(visit.story().steps()).isEmpty();
    }

    @Test
    void aMatchGivenUpTakesNoMoreSteps() {
        visit.open(opening(null, 60, true));
        var first = visit.trimDraft("gain.red", -1);
        visit.send(first).expect(201);
        var path = "/match-stories/" + visit.id() + "/giving-up";
        engineer().post(path, new GivingUp("the client has arrived")).expect(200);
        engineer().post(path, new GivingUp("the client has arrived")).expect(200);
        engineer().post(path, new GivingUp("another reason")).expect(409);
        assertThat(visit.send(visit.trimDraft("gain.red", -1))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("given up")
                .contains("open a new one");
        visit.send(first).expect(200);
        var story = visit.story();
        assertThat(story.state()).isEqualTo(StoryState.GIVEN_UP);
        assertThat(story.endedBecause()).isEqualTo("the client has arrived");
    }

    @Test
    void matchesAreListedByStateNewestFirst() {
        var first = visit.open(opening(null, 60, true));
        engineer()
                .post("/match-stories/" + first.id() + "/giving-up", new GivingUp("no time"))
                .expect(200);
        clock.advance(Duration.ofMinutes(1));
        var second = visit.open(opening(null, 60, true));
        var all = engineer().all("/match-stories?limit=1&follower=" + follower, MatchStory.class);
        assertThat(all).extracting(MatchStory::id).containsExactly(second.id(), first.id());
        assertThat(engineer().all("/match-stories?state=open&follower=" + follower, MatchStory.class))
                .extracting(MatchStory::id)
                .containsExactly(second.id());
        assertThat(engineer()
                        .all(
                                "/match-stories?state=given-up&operator=operator A&hero=" + studio.hero(),
                                MatchStory.class))
                .extracting(MatchStory::id)
                .containsExactly(first.id());
    }

    @Test
    void aMatchWhoseSignOffIsWithdrawnIsOpenAgainAsItsLastStepLeftItAndCanBeSignedAnew() {
        var opened = visit.open(opening(null, 60, true));
        visit.trim("gain.red", -2);
        var mistaken = unmeasured();
        var first = sign(mistaken).expect(201).as(Match.class);
        withdraw(first, null);

        var story = visit.story();
        assertThat(story.state()).isEqualTo(StoryState.OPEN);
        assertThat(story.settings()).containsExactly(new Trim("gain.red", "all", -2));
        assertThat(engineer().all("/match-stories?state=open&follower=" + follower, MatchStory.class))
                .extracting(MatchStory::id)
                .containsExactly(opened.id());
        assertThat(engineer()
                        .get("/matches/" + first.id() + "/restoration")
                        .as(Restoration.class)
                        .changes())
                .as("the controls stand as they were left")
                .allSatisfy(change -> assertThat(change.from()).isEqualTo(-2));
        assertThat(sign(mistaken).expect(200).as(Match.class).withdrawn())
                .as("a repeat is told what became of it")
                .isNotNull();

        visit.trim("gain.red", 1);
        assertThat(sign(mistaken).expect(409).problem().detail()).contains("nothing was changed");
        var second = sign(unmeasured()).expect(201).as(Match.class);
        assertThat(second.trims()).containsExactly(new Trim("gain.red", "all", -1));
        assertThat(visit.story().state()).isEqualTo(StoryState.SIGNED);
        assertThat(visit.story().signOff()).isEqualTo(second);
    }

    @Test
    void aSignOffThatIsSentAgainAfterItPassedToAnotherOperatorIsHarmless() {
        visit.open(opening(null, 60, true));
        visit.trim("gain.red", -2);
        var draft = unmeasured();
        withdraw(sign(draft).expect(201).as(Match.class), "operator B");
        assertThat(visit.story().state()).isEqualTo(StoryState.SIGNED);
        assertThat(visit.story().signOff().operator()).isEqualTo("operator B");
        var repeated = sign(draft).expect(200).as(Match.class);
        assertThat(repeated.operator()).isEqualTo("operator A");
        assertThat(repeated.withdrawn()).isNotNull();
        sign(unmeasured()).expect(409);
    }

    private Answer sign(StorySignOffDraft draft) {
        return as(Role.CALIBRATOR).post("/match-stories/" + visit.id() + "/sign-off", draft);
    }

    private static StorySignOffDraft unmeasured() {
        return new StorySignOffDraft(UUID.randomUUID(), null, null, null, null, null);
    }

    private void withdraw(Match match, @Nullable String operator) {
        engineer()
                .post("/matches/" + match.id() + "/withdrawal", new MatchWithdrawalDraft("a mistake", operator))
                .expect(201);
    }

    private void calibrate(UUID preset, UnaryOperator<XYZ> bend) {
        studio.upload(studio.run(preset, Purpose.AS_LEFT, clock.advance(Duration.ofMinutes(1)), bend));
    }

    private OpeningDraft opening(UUID instrument, Integer minutes, Boolean lights) {
        return new OpeningDraft(
                UUID.randomUUID(),
                follower,
                studio.hero(),
                "operator A",
                instrument,
                minutes,
                minutes,
                lights,
                List.of(),
                null);
    }

    private static Holds holds(MatchStory story, Requirement requirement) {
        return condition(story, requirement).holds();
    }

    private static String words(MatchStory story, Requirement requirement) {
        return condition(story, requirement).explanation();
    }

    private static Condition condition(MatchStory story, Requirement requirement) {
        return story.conditions().stream()
                .filter(condition -> condition.requirement() == requirement)
                .findFirst()
                .orElseThrow();
    }

    private static RunUpload withReadings(RunUpload run, List<ReadingEntry> readings) {
        return new RunUpload(
                UUID.randomUUID(),
                run.presetId(),
                run.instrumentId(),
                run.purpose(),
                run.operator(),
                run.takenAt(),
                run.panelHours(),
                run.minutesSincePowerOn(),
                run.ambientIlluminanceLux(),
                run.fileName(),
                run.remarks(),
                run.baselineReason(),
                readings);
    }
}
