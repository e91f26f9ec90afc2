package panelbook.app.matching;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.LocalDate;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.colorimetry.UV1976;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Patches;
import panelbook.colorimetry.simulation.Primaries;
import panelbook.colorimetry.simulation.TrimmedDisplay;
import panelbook.wire.CertificateDraft;
import panelbook.wire.ClickEffect;
import panelbook.wire.Condition;
import panelbook.wire.ControlRange;
import panelbook.wire.ControlRangeDraft;
import panelbook.wire.Decision;
import panelbook.wire.DisplayDraft;
import panelbook.wire.EffectFigure;
import panelbook.wire.EotfKind;
import panelbook.wire.Holds;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.InstrumentKind;
import panelbook.wire.Look;
import panelbook.wire.Match;
import panelbook.wire.MatchStep;
import panelbook.wire.MatchStory;
import panelbook.wire.MergerDraft;
import panelbook.wire.NotMore;
import panelbook.wire.OffsetSource;
import panelbook.wire.OpeningDraft;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.Place;
import panelbook.wire.PresetDraft;
import panelbook.wire.Purpose;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Restoration;
import panelbook.wire.Role;
import panelbook.wire.RoomSheet;
import panelbook.wire.Rule;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.StorySignOffDraft;
import panelbook.wire.TargetDraft;
import panelbook.wire.ToleranceSet;
import panelbook.wire.Trim;
import panelbook.wire.TrimChange;
import panelbook.wire.TrimSuggestion;
import panelbook.wire.WhyNotMore;

/**
 * A visit on simulated displays whose clicks are known, and the next one that starts where it ended. The truth is what the
 * simulation shows to a meter without noise.
 */
class TwoVisitsTest extends ServiceTest {

    private static final CodeValues CODES = new CodeValues(SignalRange.FULL, 10);
    private static final List<Patch> RAMP = Patches.check(CODES, 10);

    /** Of the meter: figures of the simulation, expanded with k = 2 where the contract asks for it. */
    private static final Instrument METER = Instrument.COLORIMETER;

    private final Random random = new Random(20260302);
    private UUID room;
    private UUID facility;
    private UUID target;
    private UUID meter;
    private UUID hero;
    private UUID followerDisplay;
    private UUID follower;
    private final TrimmedDisplay heroPanel = TrimmedDisplay.ofModel(Primaries.emissive(), 0.1, new Random(1));
    private final TrimmedDisplay panel = TrimmedDisplay.ofModel(Primaries.quantumDotLcd(), 0.1, new Random(2));
    private final String operator = unique("operator");
    private Visit visit;

    @BeforeEach
    void enterARoom() {
        var samples = new Samples(engineer());
        facility = samples.facility().id();
        room = samples.room(facility).id();
        var set = engineer()
                .get("/tolerance-sets?name=SDR grading")
                .asPageOf(ToleranceSet.class)
                .items()
                .get(0);
        target = UUID.randomUUID();
        // ITU-R BT.709-6, item 1.3 and 1.4: primaries and white
        var primaries = new panelbook.wire.Primaries(0.64, 0.33, 0.30, 0.60, 0.15, 0.06, 0.3127, 0.3290);
        engineer()
                .post(
                        "/targets",
                        new TargetDraft(
                                target,
                                unique("SDR 100"),
                                primaries,
                                EotfKind.POWER,
                                2.4,
                                panelbook.wire.SignalRange.FULL,
                                10,
                                100,
                                0.02,
                                set.id()))
                .expect(201);
        meter = UUID.randomUUID();
        engineer()
                .post(
                        "/instruments",
                        new InstrumentDraft(
                                meter,
                                unique("Disc meter"),
                                InstrumentKind.COLORIMETER,
                                null,
                                200 * METER.statedLuminance(),
                                100 * METER.luminanceNoise(),
                                2 * METER.statedChromaticity(),
                                METER.chromaticityNoise(),
                                METER.floor()))
                .expect(201);
        engineer()
                .post(
                        "/instruments/" + meter + "/certificates",
                        new CertificateDraft(
                                UUID.randomUUID(), "C-1", LocalDate.parse("2026-01-01"), LocalDate.parse("2035-12-31")))
                .expect(201);
        hero = preset(display("Hero", "emissive", unique("model H")));
        samples.hero(room, hero);
        followerDisplay = display("Follower", "quantum-dot lcd", unique("model F"));
        follower = preset(followerDisplay);
        visit = new Visit(as(Role.CALIBRATOR), clock);
    }

    @Test
    void theNextVisitStartsWhereThisOneEnded() {
        calibrate();
        var story = firstVisit();

        // what was kept: eleven steps, the overshoot among them, and the sign-off with its offset
        assertThat(story.steps()).hasSize(11);
        assertThat(story.steps())
                .extracting(MatchStep::undone)
                .containsExactly(false, false, false, true, true, true, false, false, false, false, false);
        assertThat(story.conditions()).extracting(Condition::holds).containsOnly(Holds.YES);
        var match = story.signOff();
        assertThat(match).isNotNull();
        assertThat(match.trims()).containsExactly(new Trim("gain.blue", "all", -2), new Trim("gain.red", "all", -3));
        assertThat(match.measured()).isTrue();

        // a check a month later is judged by what was agreed, not by the raw difference
        clock.advance(Duration.ofDays(30));
        var verdict = measure(follower, Purpose.CHECK, signedOff());
        assertThat(verdict.alerts()).isEmpty();
        assertThat(verdict.findings())
                .filteredOn(finding -> finding.rule() == Rule.HERO_DRIFT)
                .isNotEmpty()
                .allSatisfy(finding -> assertThat(finding.decision()).isEqualTo(Decision.WITHIN));

        // the sheet tells how the trims came about
        var sheet = engineer().get("/rooms/" + room + "/sheet").expect(200).as(RoomSheet.class);
        assertThat(sheet.matchesUnderWay()).isEmpty();
        assertThat(sheet.origins()).singleElement().satisfies(origin -> {
            assertThat(origin.storyId()).isEqualTo(story.id());
            assertThat(origin.steps()).isEqualTo(11);
            assertThat(origin.undone()).isEqualTo(3);
            assertThat(origin.readings()).isEqualTo(4);
            assertThat(origin.better()).isEqualTo(1);
            assertThat(origin.worse()).isEqualTo(1);
        });

        // what a click does is known within its interval
        var effects = engineer()
                .get("/displays/" + followerDisplay + "/click-effects")
                .asListOf(ClickEffect.class);
        assertThat(effects).extracting(ClickEffect::control).containsOnly("gain.red", "gain.blue");
        assertThat(ofWhite(effects, "gain.red", EffectFigure.U).ownTrials()).isEqualTo(2);
        holdsTruth(
                ofWhite(effects, "gain.red", EffectFigure.U),
                (white(panel.gain(0, -3)).u() - white(panel).u()) / -3);
        holdsTruth(
                ofWhite(effects, "gain.blue", EffectFigure.V),
                (white(panel.gain(2, -2)).v() - white(panel).v()) / -2);

        // the next visit: calibrated anew, a match opened, and the first suggestion beats no trims by far
        clock.advance(Duration.ofDays(300));
        calibrate();
        visit.open(opening());
        assertThat(engineer()
                        .get("/rooms/" + room + "/sheet")
                        .as(RoomSheet.class)
                        .matchesUnderWay())
                .extracting(MatchStory::id)
                .containsExactly(visit.id());
        var suggestion = suggestion(operator, visit.id());
        assertThat(suggestion.offsetSource()).isEqualTo(OffsetSource.AGREED);
        assertThat(suggestion.aim()).contains(operator).contains("in question");
        assertThat(suggestion.costAfter()).isLessThan(suggestion.costBefore() / 2);
        var red = change(suggestion, "gain.red");
        var blue = change(suggestion, "gain.blue");
        assertThat(red.from()).isZero();
        var agreed = white(signedOff());
        var untouched = distance(white(panel), agreed);
        var suggested = distance(white(panel.gain(0, red.to()).gain(2, blue.to())), agreed);
        assertThat(suggested)
                .as("true distance from what was agreed, u′v′; without trims %s", untouched)
                .isLessThan(untouched / 4);
        assertThat(suggestion.rest()).anyMatch(rest -> rest.grey() == 100);
    }

    @Test
    void anotherFollowerOfItsKindIsAimedAtWhatTheOperatorUsuallyAcceptsAndAnotherOperatorsAtTheHero() {
        calibrate();
        firstVisit();
        var model = engineer()
                .get("/displays/" + followerDisplay)
                .as(panelbook.wire.Display.class)
                .model();
        var twinDisplay = display("Twin", "quantum-dot lcd", model);
        var twin = preset(twinDisplay);
        assertThat(engineer().get(path(twin, operator)).expect(409).problem().detail())
                .contains("There is no run of")
                .contains("measure white and greys first");
        measure(twin, Purpose.AS_LEFT, TrimmedDisplay.ofModel(Primaries.quantumDotLcd(), 0.1, new Random(3)));
        var usual = engineer().get(path(twin, operator)).expect(200).as(TrimSuggestion.class);
        assertThat(usual.offsetSource()).isEqualTo(OffsetSource.USUAL);
        assertThat(usual.aim()).contains("the mean of 1 match");
        assertThat(usual.whyNotMore())
                .as("one other display of the model says little of this one")
                .extracting(WhyNotMore::reason)
                .contains(NotMore.EFFECT_UNSURE);
        assertThat(engineer().get("/displays/" + twinDisplay + "/click-effects").asListOf(ClickEffect.class))
                .isNotEmpty()
                .allSatisfy(effect -> {
                    assertThat(effect.ownTrials()).isZero();
                    assertThat(effect.otherDisplays()).isEqualTo(1);
                });
        var nobody = engineer().get(path(twin, unique("operator"))).expect(200).as(TrimSuggestion.class);
        assertThat(nobody.offsetSource()).isEqualTo(OffsetSource.NONE);
    }

    @Test
    void nothingIsSuggestedWhileNothingIsKnownOfClicks() {
        calibrate();
        assertThat(engineer()
                        .get(path(follower, operator))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("turn one control, and read it again");
    }

    @Test
    void aSuggestionKeepsWithinTheRangeThatWasStatedAndSaysWhyNotMore() {
        calibrate();
        firstVisit();
        var ranges = "/displays/" + followerDisplay + "/control-ranges";
        var calibrator = as(Role.CALIBRATOR);
        calibrator.post(ranges, new ControlRangeDraft("gain.red", "all", -5, 5)).expect(201);
        calibrator.post(ranges, new ControlRangeDraft("gain.red", "all", -1, 5)).expect(201);
        calibrator.post(ranges, new ControlRangeDraft("gain.red", "all", -1, 5)).expect(200);
        assertThat(calibrator
                        .post(ranges, new ControlRangeDraft("gain.red", "all", 1, 5))
                        .expect(400)
                        .problem()
                        .detail())
                .contains("/least");
        assertThat(calibrator.get(ranges).asListOf(ControlRange.class))
                .singleElement()
                .satisfies(range -> assertThat(range.least()).isEqualTo(-1));
        clock.advance(Duration.ofDays(300));
        calibrate();
        var suggestion = engineer().get(path(follower, operator)).expect(200).as(TrimSuggestion.class);
        assertThat(change(suggestion, "gain.red").to()).isEqualTo(-1);
        assertThat(suggestion.whyNotMore())
                .anySatisfy(why -> assertThat(why.explanation()).contains("gain.red ends here"));
    }

    @Test
    void aSuggestionStartsFromWhereTheControlsStandNowThoughTheReadingIsOlder() {
        calibrate();
        firstVisit();
        clock.advance(Duration.ofDays(300));
        calibrate();
        visit.open(opening());
        var before = suggestion(operator, visit.id());
        visit.trim("gain.red", -1);
        var after = suggestion(operator, visit.id());
        assertThat(change(after, "gain.red").from()).isEqualTo(-1);
        assertThat(change(after, "gain.red").to())
                .isEqualTo(change(before, "gain.red").to());
        visit.trim("hue", 2);
        assertThat(engineer()
                        .get(path(follower, operator) + "&story=" + visit.id())
                        .expect(409)
                        .problem()
                        .detail())
                .contains("hue was turned since the last reading");
        read(panel.gain(0, -1));
        var unknown = suggestion(operator, visit.id());
        assertThat(unknown.effectUnknown()).containsExactly("hue");
        assertThat(change(unknown, "gain.red").from()).isEqualTo(-1);
        engineer()
                .get(path(follower, unique("operator")) + "&story=" + visit.id())
                .expect(400);
    }

    @Test
    void readingsBetweenWhichSeveralControlsWereTurnedTeachNothing() {
        calibrate();
        visit.open(opening());
        read(panel);
        visit.trim("gain.red", -3);
        visit.trim("gain.blue", -2);
        read(panel.gain(0, -3).gain(2, -2));
        assertThat(engineer()
                        .get("/displays/" + followerDisplay + "/click-effects")
                        .asListOf(ClickEffect.class))
                .isEmpty();
        visit.trim("gain.red", 3);
        visit.trim("gain.blue", 2);
        visit.trim("gain.blue", -2);
        read(panel.gain(2, -2));
        assertThat(engineer()
                        .get("/displays/" + followerDisplay + "/click-effects")
                        .asListOf(ClickEffect.class))
                .as("one of them was taken back, so that red alone stands otherwise")
                .extracting(ClickEffect::control)
                .containsOnly("gain.red");
    }

    @Test
    void whatToSetToGetBackIsListedControlByControl() {
        calibrate();
        var story = firstVisit();
        var match = story.signOff();
        assertThat(match).isNotNull();
        var overshoot = restoration("/match-stories/" + story.id() + "/restoration?step=5");
        assertThat(overshoot.changes())
                .containsExactly(new TrimChange("gain.blue", "all", -2, 0), new TrimChange("gain.red", "all", -3, -6));
        assertThat(overshoot.from()).contains("as signed off for " + operator);
        assertThat(restoration("/match-stories/" + story.id() + "/restoration").changes())
                .as("unchanged ones are listed too")
                .containsExactly(new TrimChange("gain.blue", "all", -2, -2), new TrimChange("gain.red", "all", -3, -3));
        clock.advance(Duration.ofDays(300));
        calibrate();
        var signedOff = restoration("/matches/" + match.id() + "/restoration");
        assertThat(signedOff.from()).startsWith("as calibrated on");
        assertThat(signedOff.state()).contains("calibrated anew");
        assertThat(signedOff.changes())
                .containsExactly(new TrimChange("gain.blue", "all", 0, -2), new TrimChange("gain.red", "all", 0, -3));
        visit.open(opening());
        visit.trim("saturation", 1);
        assertThat(restoration("/matches/" + match.id() + "/restoration").changes())
                .contains(new TrimChange("saturation", "all", 1, 0));
        assertThat(restoration("/match-stories/" + visit.id() + "/restoration?step=0")
                        .changes())
                .containsExactly(new TrimChange("saturation", "all", 1, 0));
        engineer().get("/match-stories/" + visit.id() + "/restoration?step=7").expect(400);
    }

    @Test
    void whatClicksDoIsStillKnownWhenADisplayThatWasEnteredTwiceIsMerged() {
        calibrate();
        firstVisit();
        var known = clicks(followerDisplay);
        assertThat(known)
                .isNotEmpty()
                .allSatisfy(effect -> assertThat(effect.ownTrials()).isPositive());
        var kept = display("Follower as engineers call it", "quantum-dot lcd", unique("model F by another name"));
        preset(kept);
        engineer()
                .post("/displays/" + followerDisplay + "/merger", new MergerDraft(kept, List.of(), "one serial number"))
                .expect(201);
        assertThat(clicks(kept)).isEqualTo(known);
        assertThat(clicks(followerDisplay)).as("by its other name").isEqualTo(known);
    }

    private List<ClickEffect> clicks(UUID display) {
        return List.of(engineer()
                .get("/displays/" + display + "/click-effects")
                .expect(200)
                .as(ClickEffect[].class));
    }

    /** The operator sees red, the calibrator goes past the right setting and back, then takes some blue. */
    private MatchStory firstVisit() {
        visit.open(opening());
        visit.saw(Look.REDDER, Place.WHOLE_IMAGE); // 1
        visit.trim("gain.red", -3); // 2
        read(panel.gain(0, -3)); // 3
        visit.trim("gain.red", -3); // 4
        visit.verdict(OperatorVerdict.WORSE); // 5
        read(panel.gain(0, -6)); // 6
        visit.returnTo(3); // 7
        read(panel.gain(0, -3)); // 8
        visit.trim("gain.blue", -2); // 9
        visit.verdict(OperatorVerdict.BETTER); // 10
        var closing = read(signedOff()); // 11
        var ofHero = run(hero, Purpose.MATCH, heroPanel);
        upload(ofHero);
        as(Role.CALIBRATOR)
                .post(
                        "/match-stories/" + visit.id() + "/sign-off",
                        new StorySignOffDraft(UUID.randomUUID(), closing, ofHero.id(), "night interiors", null, null))
                .expect(201)
                .as(Match.class);
        return visit.story();
    }

    private TrimmedDisplay signedOff() {
        return panel.gain(0, -3).gain(2, -2);
    }

    private UUID read(TrimmedDisplay shown) {
        var run = run(follower, Purpose.MATCH, shown);
        upload(run);
        visit.reading(run.id());
        return run.id();
    }

    private void calibrate() {
        measure(follower, Purpose.AS_LEFT, panel);
        measure(hero, Purpose.AS_LEFT, heroPanel);
    }

    private RunVerdict measure(UUID preset, Purpose purpose, TrimmedDisplay shown) {
        return upload(run(preset, purpose, shown));
    }

    private RunVerdict upload(RunUpload run) {
        return as(Role.CALIBRATOR).post("/runs", run).expect(201).as(RunVerdict.class);
    }

    private RunUpload run(UUID preset, Purpose purpose, TrimmedDisplay shown) {
        var readings = shown.measure(CODES, RAMP, METER, random).stream()
                .map(r -> new ReadingEntry(
                        r.patch().red(),
                        r.patch().green(),
                        r.patch().blue(),
                        r.xyz().x(),
                        r.xyz().y(),
                        r.xyz().z()))
                .toList();
        return new RunUpload(
                UUID.randomUUID(),
                preset,
                meter,
                purpose,
                "calibrator on duty",
                clock.advance(Duration.ofMinutes(3)),
                null,
                60,
                null,
                null,
                null,
                purpose == Purpose.AS_LEFT ? "simulated panels lie off the target's primaries" : null,
                readings);
    }

    private OpeningDraft opening() {
        return new OpeningDraft(UUID.randomUUID(), follower, hero, operator, meter, 60, 60, true, List.of(), null);
    }

    private UUID display(String name, String technology, String model) {
        var draft = new DisplayDraft(UUID.randomUUID(), facility, room, unique(name), model, technology, null, null);
        engineer().post("/displays", draft).expect(201);
        return draft.id();
    }

    private UUID preset(UUID display) {
        var draft = new PresetDraft(UUID.randomUUID(), display, "Grade", target);
        engineer().post("/presets", draft).expect(201);
        return draft.id();
    }

    private String path(UUID followerPreset, String ofOperator) {
        return "/trim-suggestions?follower=" + followerPreset + "&hero=" + hero + "&operator=" + ofOperator;
    }

    private TrimSuggestion suggestion(String ofOperator, UUID story) {
        return engineer()
                .get(path(follower, ofOperator) + "&story=" + story)
                .expect(200)
                .as(TrimSuggestion.class);
    }

    private Restoration restoration(String path) {
        return engineer().get(path).expect(200).as(Restoration.class);
    }

    private static TrimChange change(TrimSuggestion suggestion, String control) {
        return suggestion.changes().stream()
                .filter(change -> change.control().equals(control))
                .findFirst()
                .orElseThrow();
    }

    private static ClickEffect ofWhite(List<ClickEffect> effects, String control, EffectFigure figure) {
        return effects.stream()
                .filter(effect -> effect.control().equals(control) && effect.grey() == 100 && effect.figure() == figure)
                .findFirst()
                .orElseThrow();
    }

    private static void holdsTruth(ClickEffect effect, double truth) {
        assertThat(truth).as("true effect of %s", effect.control()).isBetween(effect.lower(), effect.upper());
    }

    /** What the display truly shows. */
    private static UV1976 white(TrimmedDisplay shown) {
        return shown.measure(CODES, List.of(Patch.grey(CODES.white())), Instrument.PERFECT, new Random(0))
                .get(0)
                .xyz()
                .uv1976()
                .orElseThrow();
    }

    private static double distance(UV1976 a, UV1976 b) {
        return Math.hypot(a.u() - b.u(), a.v() - b.v());
    }
}
