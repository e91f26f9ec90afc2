package panelbook.app.matching;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.tinted;

import java.time.Duration;
import java.util.List;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.Match;
import panelbook.wire.OperatorDifference;
import panelbook.wire.Purpose;
import panelbook.wire.Reason;
import panelbook.wire.RoomReadiness;
import panelbook.wire.RoomSheet;
import panelbook.wire.RoomTrims;
import panelbook.wire.Rule;
import panelbook.wire.RunUpload;
import panelbook.wire.RunVerdict;
import panelbook.wire.SignOffDraft;
import panelbook.wire.Trim;

/** A match signed without closing runs is in force, but nothing measured is judged by it. */
class UnmeasuredTest extends ServiceTest {

    private static final UnaryOperator<XYZ> TRIMMED = tinted(0.006, 0.004);

    private Studio studio;
    private UUID follower;

    @BeforeEach
    void calibrateAPair() {
        studio = new Studio(engineer(), unique("studio"));
        follower = studio.display("Follower 1", "oled");
        measure(follower, Purpose.AS_LEFT, asAimed());
        measure(studio.hero(), Purpose.AS_LEFT, asAimed());
    }

    @Test
    void itReplacesTheMeasuredOneOfItsOperatorWhoseResidualIsJudgedNoMore() {
        var before = signMeasured("operator A", tinted(0.003, 0));
        measure(follower, Purpose.CHECK, tinted(0.009, 0));
        assertThat(standing(follower))
                .anyMatch(finding -> finding.rule() == Rule.HERO_DRIFT && finding.decision() == Decision.BEYOND);
        var after = signUnmeasured("operator A", List.of(new Trim("gain.red", "all", -2)));
        var trims = engineer().get("/rooms/" + studio.room() + "/trims").as(RoomTrims.class);
        assertThat(trims.inForce()).extracting(Match::id).containsExactly(after.id());
        assertThat(trims.history()).extracting(Match::id).containsExactly(before.id());
        assertThat(standing(follower)).noneMatch(finding -> finding.rule() == Rule.HERO_DRIFT);
    }

    @Test
    void aCheckAfterItBlamesNobodyForTheTrimsThatNobodyMeasured() {
        signUnmeasured("operator A", List.of(new Trim("gain.red", "all", -2)));
        var verdict = measure(follower, Purpose.CHECK, TRIMMED);
        assertThat(verdict.alerts()).isEmpty();
        assertThat(verdict.findings())
                .noneMatch(finding -> finding.rule() == Rule.HERO_DRIFT
                        || finding.rule() == Rule.OWN_DRIFT
                        || finding.rule() == Rule.VERIFICATION);
    }

    @Test
    void theResidualOfAnotherOperatorIsSetAsideWhileNothingTellsHowItWasLeft() {
        signMeasured("operator A", tinted(0.003, 0));
        signUnmeasured("operator B", List.of(new Trim("gain.red", "all", -2)));
        var verdict = measure(follower, Purpose.CHECK, TRIMMED);
        assertThat(verdict.alerts()).isEmpty();
        assertThat(verdict.findings().stream()
                        .filter(finding -> finding.rule() == Rule.HERO_DRIFT)
                        .toList())
                .isNotEmpty()
                .allSatisfy(finding -> assertThat(finding.explanation()).contains("signed off last for operator B"));
    }

    @Test
    void aMeasuredSignOffAfterItIsJudgedByAgain() {
        signUnmeasured("operator A", List.of(new Trim("gain.red", "all", -2)));
        signMeasured("operator A", TRIMMED);
        assertThat(measure(follower, Purpose.CHECK, TRIMMED).alerts()).isEmpty();
        assertThat(measure(follower, Purpose.CHECK, asAimed()).findings())
                .anyMatch(finding -> finding.rule() == Rule.HERO_DRIFT && finding.decision() == Decision.BEYOND);
    }

    @Test
    void theRoomIsReadyWithTheRemarkThatDriftCannotBeTold() {
        signUnmeasured("operator A", List.of());
        var readiness = engineer().get("/rooms/" + studio.room() + "/readiness").as(RoomReadiness.class);
        assertThat(readiness.reasons())
                .extracting(Reason::code)
                .contains("unmeasured-match")
                .doesNotContain("not-matched");
        signMeasured("operator A", asAimed());
        assertThat(engineer()
                        .get("/rooms/" + studio.room() + "/readiness")
                        .as(RoomReadiness.class)
                        .reasons())
                .extracting(Reason::code)
                .doesNotContain("unmeasured-match");
    }

    @Test
    void aNewBaselineOfTheHeroPutsItInQuestionToo() {
        signUnmeasured("operator A", List.of());
        measure(studio.hero(), Purpose.AS_LEFT, asAimed());
        assertThat(engineer().all("/matches?follower=" + follower, Match.class))
                .singleElement()
                .satisfies(match -> assertThat(match.inQuestion()).contains("new baseline"));
    }

    @Test
    void theSheetShowsItsTrimsAndHowOperatorsDifferInClicksAlone() {
        signMeasured("operator A", asAimed());
        signUnmeasured("operator B", List.of(new Trim("gain.red", "all", -2)));
        var sheet = engineer().get("/rooms/" + studio.room() + "/sheet").as(RoomSheet.class);
        assertThat(sheet.trims()).extracting(Match::measured).containsExactly(true, false);
        assertThat(sheet.differences()).singleElement().satisfies(difference -> {
            assertThat(difference).extracting(OperatorDifference::duv).isNull();
            assertThat(difference.clicks()).containsExactly(new Trim("gain.red", "all", -2));
        });
    }

    private Match signMeasured(String operator, UnaryOperator<XYZ> left) {
        var followerRun = run(follower, Purpose.MATCH, left);
        var heroRun = run(studio.hero(), Purpose.MATCH, asAimed());
        studio.upload(followerRun);
        studio.upload(heroRun);
        return studio.signOff(follower, operator, followerRun, heroRun);
    }

    private Match signUnmeasured(String operator, List<Trim> trims) {
        clock.advance(Duration.ofMinutes(1));
        var draft = new SignOffDraft(
                UUID.randomUUID(), follower, studio.hero(), operator, null, null, trims, "night interiors", null, null);
        return engineer().post("/matches", draft).expect(201).as(Match.class);
    }

    private List<Finding> standing(UUID preset) {
        return engineer().get("/presets/" + preset + "/findings").asListOf(Finding.class);
    }

    private RunVerdict measure(UUID preset, Purpose purpose, UnaryOperator<XYZ> bend) {
        return studio.upload(run(preset, purpose, bend));
    }

    private RunUpload run(UUID preset, Purpose purpose, UnaryOperator<XYZ> bend) {
        return studio.run(preset, purpose, clock.advance(Duration.ofMinutes(1)), bend);
    }
}
