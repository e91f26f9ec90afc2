package panelbook.app.sheet;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.offset;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.atPanelHours;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AsLeft;
import panelbook.wire.BaselineDraft;
import panelbook.wire.Decision;
import panelbook.wire.Display;
import panelbook.wire.Finding;
import panelbook.wire.Instrument;
import panelbook.wire.Match;
import panelbook.wire.Metric;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.Quirk;
import panelbook.wire.QuirkDraft;
import panelbook.wire.ReadinessState;
import panelbook.wire.ReadingEntry;
import panelbook.wire.Role;
import panelbook.wire.Room;
import panelbook.wire.RoomReadiness;
import panelbook.wire.RoomSheet;
import panelbook.wire.RoomTrims;
import panelbook.wire.Rule;
import panelbook.wire.Run;
import panelbook.wire.RunUpload;
import panelbook.wire.SheetDisplay;
import panelbook.wire.SheetMeter;
import panelbook.wire.SheetPreset;
import panelbook.wire.Target;
import panelbook.wire.Trim;

/** The sheet answers what is asked on arrival, and says the same as the resources that it is gathered from. */
class RoomSheetTest extends ServiceTest {

    private Studio studio;
    private UUID follower;
    private Instant visit;

    @BeforeEach
    void aRoom() {
        studio = new Studio(engineer(), unique("studio"));
        follower = studio.display("Follower 1", "lcd");
        visit = clock.advance(Duration.ofHours(1)).minus(Duration.ofDays(40));
    }

    @Test
    void theSheetSaysTheSameAsTheResourcesItIsGatheredFrom() {
        aRoomWithAPast();
        var sheet = sheet("?instrument=" + studio.instrument());

        var room = "/rooms/" + studio.room();
        assertThat(sheet.room()).isEqualTo(engineer().get(room).as(Room.class));
        assertThat(sheet.readiness())
                .isEqualTo(engineer().get(room + "/readiness").as(RoomReadiness.class));
        assertThat(sheet.trims())
                .isEqualTo(engineer().get(room + "/trims").as(RoomTrims.class).inForce())
                .hasSize(2);
        assertThat(sheet.alerts())
                .isEqualTo(engineer().all("/alerts?room=" + studio.room(), Alert.class))
                .hasSize(1);
        assertThat(sheet.displays())
                .extracting(SheetDisplay::display)
                .isEqualTo(engineer().all("/displays?room=" + studio.room(), Display.class));
        assertThat(sheet.displays())
                .allSatisfy(shown -> assertThat(shown.quirks())
                        .isEqualTo(engineer()
                                .get("/displays/" + shown.display().id() + "/quirks")
                                .asListOf(Quirk.class)));
        assertThat(sheet.targets()).singleElement().satisfies(shown -> {
            assertThat(shown.target())
                    .isEqualTo(engineer().get("/targets/" + studio.target()).as(Target.class));
            assertThat(shown.presets())
                    .extracting(SheetPreset::preset)
                    .containsExactlyInAnyOrderElementsOf(
                            engineer().all("/presets?room=" + studio.room(), Preset.class));
            assertThat(shown.presets()).allSatisfy(this::saysTheSameAsItsResources);
        });
        assertThat(sheet.meters())
                .extracting(SheetMeter::instrument)
                .containsExactly(
                        engineer().get("/instruments/" + studio.instrument()).as(Instrument.class));
    }

    private void saysTheSameAsItsResources(SheetPreset shown) {
        var id = shown.preset().id();
        var standing = engineer().get("/presets/" + id + "/findings").asListOf(Finding.class).stream()
                .filter(finding -> finding.rule() == Rule.OWN_DRIFT || finding.rule() == Rule.HERO_DRIFT)
                .toList();
        assertThat(Stream.concat(shown.drift().stream(), shown.setAside().stream()))
                .containsExactlyInAnyOrderElementsOf(standing)
                .isNotEmpty();
        var asLeft = shown.asLeft();
        var path = "/runs/" + shown.preset().baselineRunId();
        assertThat(asLeft.run()).isEqualTo(engineer().get(path).as(Run.class));
        assertThat(asLeft.findings())
                .containsExactlyInAnyOrderElementsOf(engineer().get(path + "/findings").asListOf(Finding.class).stream()
                        .filter(finding -> finding.rule() == Rule.VERIFICATION)
                        .toList())
                .isNotEmpty();
        var white = engineer().all(path + "/readings", ReadingEntry.class).stream()
                .filter(reading -> reading.red() == 940 && reading.green() == 940 && reading.blue() == 940)
                .findFirst()
                .orElseThrow();
        // u′ = 4X / (X + 15Y + 3Z), CIE 015:2018
        assertThat(asLeft.whiteLuminance()).isEqualTo(white.y());
        assertThat(asLeft.whiteU())
                .isCloseTo(4 * white.x() / (white.x() + 15 * white.y() + 3 * white.z()), offset(1e-12));
        assertThat(asLeft.whiteV())
                .isCloseTo(9 * white.y() / (white.x() + 15 * white.y() + 3 * white.z()), offset(1e-12));
        assertThat(asLeft.findings())
                .filteredOn(finding -> finding.metric() == Metric.DELTA_E_ITP_MAX)
                .allSatisfy(finding -> assertThat(asLeft.deltaEItp().maximum()).isEqualTo(finding.value()));
        assertThat(shown.latest())
                .isEqualTo(engineer().get("/runs/" + shown.latest().id()).as(Run.class));
    }

    @Test
    void aContrastIsNotMeasurableWhereBlackLiesAtTheMetersFloor() {
        // the floor of the studio's meter is 0.0002 cd/m², three of it its limit of detection: common practice
        UnaryOperator<XYZ> noBlack = xyz -> xyz.luminance() < 0.01 ? new XYZ(1e-4, 1e-4, 1e-4) : xyz;
        var run = studio.run(follower, Purpose.AS_LEFT, visit, noBlack);
        var verdict = studio.upload(run);
        var asLeft = asLeft(follower);
        assertThat(asLeft.blackLuminance()).isEqualTo(1e-4);
        assertThat(asLeft.contrast()).isNull();
        assertThat(verdict.findings())
                .filteredOn(finding -> finding.metric() == Metric.CONTRAST)
                .allSatisfy(finding -> assertThat(finding.explanation())
                        .isEqualTo("Contrast is not measurable, since black lies at the meter's floor: at least"
                                + " 1666667:1."));
    }

    @Test
    void theHeroComesFirstAndTheAimStandsInWords() {
        studio.display("A display before it by name", "lcd");
        assertThat(sheet("").targets()).singleElement().satisfies(target -> {
            assertThat(target.aim())
                    .isEqualTo("P3 primaries, white D65; PQ, narrow range, 10 bit; peak 1000 cd/m², black 0.001 cd/m²");
            assertThat(target.presets())
                    .extracting(shown -> shown.preset().display())
                    .containsExactly("Hero", "A display before it by name", "Follower 1");
            assertThat(target.presets().get(0).preset().hero()).isTrue();
            assertThat(target.presets())
                    .allSatisfy(shown -> assertThat(shown.asLeft()).isNull());
        });
    }

    /** D65 is u′ 0.1978, v′ 0.4683 (CIE 015:2018) and, from x 0.3127, y 0.3290, 6504.3 K and Duv 0.0032 (Ohno 2014). */
    @Test
    void whatWasLeftIsShownInFiguresWithItsAgeInDaysAndPanelHours() {
        studio.upload(atPanelHours(studio.run(studio.hero(), Purpose.AS_LEFT, visit, asAimed()), 10_000));
        counter(10_420, null);
        var left = asLeft(studio.hero());
        assertThat(left.days()).isEqualTo(40);
        assertThat(left.panelHours()).isEqualTo(420);
        assertThat(left.whiteLuminance()).isCloseTo(1000, offset(1e-6));
        assertThat(left.whiteU()).isCloseTo(0.1978, offset(5e-5));
        assertThat(left.whiteV()).isCloseTo(0.4683, offset(5e-5));
        assertThat(left.whiteCct()).isCloseTo(6504.3, offset(0.2));
        assertThat(left.whiteDuv()).isCloseTo(0.0032, offset(5e-5));
        assertThat(left.blackLuminance()).isCloseTo(0.001, offset(1e-9));
        assertThat(left.contrast()).isCloseTo(1e6, offset(1.0));
        assertThat(left.deltaEItp().mean()).isCloseTo(0, offset(1e-6));
        assertThat(left.deltaEItp().patches()).isEqualTo(14);
        counter(12, "panel swapped");
        assertThat(asLeft(studio.hero()).panelHours())
                .as("a counter that went back says nothing")
                .isNull();
    }

    @Test
    void aFigureThatTheRunCannotGiveIsLeftOut() {
        var whole = studio.run(studio.hero(), Purpose.AS_LEFT, visit, asAimed());
        var withoutWhite = new RunUpload(
                whole.id(),
                whole.presetId(),
                whole.instrumentId(),
                whole.purpose(),
                whole.operator(),
                whole.takenAt(),
                null,
                60,
                null,
                null,
                null,
                null,
                whole.readings().subList(0, 10));
        studio.upload(withoutWhite);
        engineer()
                .post(
                        "/presets/" + studio.hero() + "/baselines",
                        new BaselineDraft(withoutWhite.id(), "the meter gave up before white"))
                .expect(200);
        var left = asLeft(studio.hero());
        assertThat(left.whiteLuminance()).isNull();
        assertThat(left.whiteU()).isNull();
        assertThat(left.whiteCct()).isNull();
        assertThat(left.contrast()).isNull();
        assertThat(left.blackLuminance()).isCloseTo(0.001, offset(1e-9));
    }

    @Test
    void operatorsDifferInOffsetAndInClicks() {
        left(studio.hero());
        left(follower);
        sign("operator B", tinted(0.004, -0.001), new Trim("gain.red", "all", 1), new Trim("bias.blue", "low", 2));
        sign("operator A", tinted(0.001, 0.003), new Trim("gain.red", "all", -2), new Trim("saturation", "all", 1));
        assertThat(sheet("").differences()).singleElement().satisfies(apart -> {
            assertThat(apart.operator()).isEqualTo("operator A");
            assertThat(apart.other()).isEqualTo("operator B");
            assertThat(apart.du()).isCloseTo(0.003, offset(1e-9));
            assertThat(apart.dv()).isCloseTo(-0.004, offset(1e-9));
            assertThat(apart.duv()).isCloseTo(0.005, offset(1e-9));
            assertThat(apart.luminancePercent()).isCloseTo(0, offset(1e-9));
            assertThat(apart.clicks())
                    .containsExactly(
                            new Trim("bias.blue", "low", 2),
                            new Trim("gain.red", "all", 3),
                            new Trim("saturation", "all", -1));
        });
    }

    @Test
    void residualsToTrimsThatAFollowerDoesNotStandInAreSetAside() {
        left(studio.hero());
        left(follower);
        sign("operator B", tinted(0.02, 0));
        sign("operator A", asAimed());
        assertThat(preset(follower).drift())
                .filteredOn(finding -> finding.rule() == Rule.HERO_DRIFT)
                .isNotEmpty()
                .allSatisfy(finding -> assertThat(finding.explanation()).contains("Matched for operator A."));
        assertThat(preset(follower).setAside())
                .isNotEmpty()
                .allSatisfy(finding -> assertThat(finding.explanation()).contains("Matched for operator B."));
    }

    @Test
    void driftSinceAndTheAlertOnItAreShown() {
        left(follower);
        studio.upload(studio.run(follower, Purpose.CHECK, visit.plus(Duration.ofDays(30)), dimmed(0.7)));
        var sheet = sheet("");
        assertThat(preset(follower).drift())
                .filteredOn(finding -> finding.decision() == Decision.BEYOND)
                .extracting(Finding::metric)
                .contains(Metric.OWN_DRIFT_LUMINANCE);
        assertThat(preset(follower).latest().purpose()).isEqualTo(Purpose.CHECK);
        assertThat(sheet.alerts()).extracting(Alert::cause).containsExactly(AlertCause.MOVED);
        assertThat(sheet.readiness().state()).isEqualTo(ReadinessState.NOT_READY);
    }

    @Test
    void metersUsedHereAndTheOneInHandAreShownWithWhetherTheirCertificatesHoldToday() {
        left(studio.hero());
        var expired = studio.meter(
                UUID.randomUUID(), unique("expired"), clock.instant().minus(Duration.ofDays(1)));
        var lastDay = studio.meter(UUID.randomUUID(), unique("last day"), clock.instant());
        var without = studio.meter(UUID.randomUUID(), unique("no certificate"), null);
        studio.upload(studio.run(studio.hero(), lastDay, Purpose.CHECK, visit.plusSeconds(60), 60, asAimed()));
        var meters = sheet("?instrument=" + expired + "&instrument=" + without).meters();
        assertThat(meters)
                .extracting(meter -> meter.instrument().id())
                .as("those in hand first")
                .startsWith(expired, without)
                .containsExactlyInAnyOrder(expired, without, studio.instrument(), lastDay);
        assertThat(meters).extracting(SheetMeter::valid).containsExactly(false, false, true, true);
        assertThat(meters.get(0).certificate().expiresOn())
                .isEqualTo(
                        clock.instant().atOffset(ZoneOffset.UTC).toLocalDate().minusDays(1));
        assertThat(meters.get(0).lastUsedAt()).isNull();
        assertThat(meters.get(1).certificate()).isNull();
        assertThat(meters.get(1).inHand()).isTrue();
        assertThat(meters)
                .filteredOn(meter -> meter.instrument().id().equals(lastDay))
                .singleElement()
                .satisfies(meter -> assertThat(meter.lastUsedAt()).isEqualTo(visit.plusSeconds(60)));
    }

    @Test
    void aMeterLastUsedMoreThanAYearAgoIsLeftOutUnlessABaselineRestsOnIt() {
        var old = studio.meter(UUID.randomUUID(), unique("old"), clock.instant());
        var older = clock.instant().minus(Duration.ofDays(400));
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, older, asAimed()));
        studio.upload(studio.run(studio.hero(), old, Purpose.CHECK, older.plusSeconds(60), 60, asAimed()));
        assertThat(sheet("").meters())
                .extracting(meter -> meter.instrument().id())
                .containsExactly(studio.instrument());
    }

    @Test
    void quirksStandBesideTheirDisplay() {
        var hero = preset(studio.hero()).preset().displayId();
        var draft = new QuirkDraft(UUID.randomUUID(), "A converter sits in its feed.", null);
        engineer().post("/displays/" + hero + "/quirks", draft).expect(201);
        assertThat(sheet("").displays())
                .filteredOn(shown -> !shown.quirks().isEmpty())
                .singleElement()
                .satisfies(shown -> {
                    assertThat(shown.display().id()).isEqualTo(hero);
                    assertThat(shown.quirks()).extracting(Quirk::note).containsExactly(draft.note());
                });
    }

    @Test
    void cautionsFollowWhatStandsInTheRoom() {
        assertThat(sheet("").cautions())
                .hasSize(3)
                .anySatisfy(caution -> assertThat(caution).contains("emissive panels (Hero)"))
                .anySatisfy(caution -> assertThat(caution).contains("photosensitive"))
                .anySatisfy(caution -> assertThat(caution).contains("qualified service staff"));
        studio.display("Screen", "laser projector");
        assertThat(sheet("").cautions())
                .anySatisfy(caution -> assertThat(caution).contains("beam of a projector (Screen)"));
    }

    @Test
    void whatIsNotInTheBookIsRefused() {
        engineer().get("/rooms/" + UUID.randomUUID() + "/sheet").expect(404);
        var path = "/rooms/" + studio.room() + "/sheet?instrument=";
        assertThat(engineer()
                        .get(path + UUID.randomUUID())
                        .expect(404)
                        .problem()
                        .detail())
                .contains("There is no instrument");
        engineer().get(path + "meter").expect(400);
        as(Role.PROBE).get("/rooms/" + studio.room() + "/sheet").expect(403);
    }

    private void aRoomWithAPast() {
        left(studio.hero());
        left(follower);
        sign("operator A", asAimed(), new Trim("gain.red", "all", -2));
        sign("operator B", tinted(0.02, 0), new Trim("gain.red", "all", 1));
        studio.upload(studio.run(follower, Purpose.CHECK, visit.plus(Duration.ofDays(30)), dimmed(0.7)));
        studio.upload(studio.run(studio.hero(), Purpose.CHECK, visit.plus(Duration.ofDays(30)), asAimed()));
        var draft = new QuirkDraft(UUID.randomUUID(), "The menu dims the picture.", null);
        engineer()
                .post("/displays/" + preset(follower).preset().displayId() + "/quirks", draft)
                .expect(201);
    }

    private void left(UUID preset) {
        studio.upload(studio.run(preset, Purpose.AS_LEFT, visit, asAimed()));
    }

    private Match sign(String operator, UnaryOperator<XYZ> followerLooksLike, Trim... trims) {
        visit = visit.plusSeconds(600);
        clock.advance(Duration.ofMinutes(1));
        var heroRun = studio.run(studio.hero(), Purpose.MATCH, visit, asAimed());
        var followerRun = studio.run(follower, Purpose.MATCH, visit, followerLooksLike);
        studio.upload(heroRun);
        studio.upload(followerRun);
        return engineer()
                .post(
                        "/matches",
                        studio.signOffDraft(follower, operator, followerRun.id(), heroRun.id(), List.of(trims)))
                .expect(201)
                .as(Match.class);
    }

    private void counter(double hours, String note) {
        clock.advance(Duration.ofMinutes(1));
        engineer()
                .post(
                        "/displays/" + preset(studio.hero()).preset().displayId() + "/panel-hours",
                        new PanelHoursDraft(hours, null, note))
                .expect(201);
    }

    private RoomSheet sheet(String query) {
        return as(Role.CALIBRATOR)
                .get("/rooms/" + studio.room() + "/sheet" + query)
                .expect(200)
                .as(RoomSheet.class);
    }

    private SheetPreset preset(UUID id) {
        return sheet("").targets().stream()
                .flatMap(target -> target.presets().stream())
                .filter(shown -> shown.preset().id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private AsLeft asLeft(UUID preset) {
        return preset(preset).asLeft();
    }
}
