package panelbook.app.readiness;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import panelbook.app.assessment.Sweep;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
import panelbook.wire.Acknowledgement;
import panelbook.wire.Alert;
import panelbook.wire.Closure;
import panelbook.wire.Correction;
import panelbook.wire.CorrectionDraft;
import panelbook.wire.CorrectionWithdrawalDraft;
import panelbook.wire.HeroDraft;
import panelbook.wire.Match;
import panelbook.wire.MatchWithdrawalDraft;
import panelbook.wire.MoveDraft;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.ReadinessChange;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.ReadinessSpan;
import panelbook.wire.ReadinessState;
import panelbook.wire.Reason;
import panelbook.wire.RoomDraft;
import panelbook.wire.RoomReadiness;
import panelbook.wire.Run;
import panelbook.wire.RunWithdrawalDraft;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetDraft;
import tools.jackson.databind.json.JsonMapper;

/** What the service says of a moment later on is what it said then. */
class AsOfTest extends ServiceTest {

    private static final int EVENTS = 40;
    private static final Duration YEAR = Duration.ofDays(365);

    @Autowired
    private Sweep sweep;

    @Autowired
    private JsonMapper json;

    /** A year of a room in which anything may happen on a day, mistakes and their mending included. */
    @ParameterizedTest(name = "year {0}")
    @ValueSource(longs = 2)
    void aYearLaterTheBookSaysOfEachMomentWhatItSaidThen(long seed) {
        var year = new Year(new Random(seed));
        var then = new LinkedHashMap<Instant, Map<String, String>>();
        var happened = new ArrayList<String>();
        for (var event = 0; event < EVENTS; event++) {
            clock.advance(Duration.ofSeconds(1));
            happened.add(year.somethingHappens());
            // and a day on which nothing does: time alone changes what is due
            then.put(clock.advance(Duration.ofSeconds(1)), year.said());
            then.put(clock.advance(YEAR.dividedBy(EVENTS)), year.said());
        }
        assertThat(then.values().stream()
                        .map(said -> said.get("/rooms/" + year.studio.room() + "/readiness"))
                        .map(text -> text.replaceAll(".*\"state\":\"([a-z-]+)\".*", "$1"))
                        .distinct())
                .as("in a year with all of this the room was ready and was not: " + happened)
                .contains("ready-with-remarks", "not-ready");
        then.forEach((moment, said) -> said.forEach((question, answer) -> {
            var now = year.ask(question, "as-of=" + moment);
            assertThat(now.equals(answer))
                    .as(question + " as of " + moment + " is what was said then, but for: " + apart(now, answer)
                            + "; what happened: " + happened)
                    .isTrue();
        }));
        theHistoryOfTheYearSaysTheSame(year, then);
    }

    private void theHistoryOfTheYearSaysTheSame(Year year, Map<Instant, Map<String, String>> then) {
        var room = "/rooms/" + year.studio.room();
        var from = then.keySet().iterator().next();
        var history = engineer()
                .get(room + "/readiness-history?from=" + from + "&to=" + clock.instant())
                .as(ReadinessHistory.class);
        var spans = history.spans();
        assertThat(spans).hasSizeGreaterThan(10).first().returns(from, ReadinessSpan::from);
        for (var i = 1; i < spans.size(); i++) {
            assertThat(spans.get(i).from())
                    .as("no gap")
                    .isEqualTo(spans.get(i - 1).to());
            assertThat(spans.get(i).changes())
                    .as("what changed the readiness at " + spans.get(i).from())
                    .isNotEmpty();
        }
        then.forEach((moment, said) -> {
            var answer = json.readValue(said.get(room + "/readiness"), RoomReadiness.class);
            var span = spans.stream()
                    .filter(one -> !moment.isBefore(one.from()) && moment.isBefore(one.to()))
                    .findFirst();
            // the last moment is the end of the period, which no span holds
            span.ifPresent(held -> assertThat(List.of(held.state(), codes(held.reasons())))
                    .as("the history at " + moment)
                    .isEqualTo(List.of(answer.state(), codes(answer.reasons()))));
        });
    }

    private static List<String> codes(List<Reason> reasons) {
        return reasons.stream()
                .map(reason -> reason.code() + " " + reason.display())
                .toList();
    }

    @Test
    void aRoomGrowsOverdueByTheCalendarAloneAndItsHistorySaysThatTimeWentBy() {
        var studio = new Studio(engineer(), unique("studio"));
        var calibrated = clock.advance(Duration.ofMinutes(1));
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, calibrated, asAimed()));
        clock.advance(Duration.ofDays(70));
        var history = engineer()
                .get("/rooms/" + studio.room() + "/readiness-history?from=" + calibrated.minusSeconds(30))
                .as(ReadinessHistory.class);
        assertThat(history.spans())
                .extracting(ReadinessSpan::state)
                .containsExactly(ReadinessState.NOT_READY, ReadinessState.READY, ReadinessState.READY_WITH_REMARKS);
        assertThat(history.spans().get(1).changes())
                .first()
                .satisfies(change -> assertThat(change.text()).startsWith("as-left of " + studio.name()));
        // common practice, no published source: 60 days are allowed by the set that comes with the book
        assertThat(history.spans().get(2).from()).isEqualTo(calibrated.plus(Duration.ofDays(61)));
        assertThat(history.spans().get(2).changes())
                .extracting(ReadinessChange::kind)
                .containsExactly("time");
    }

    @Test
    void aHistoryThatIsBackToFrontTooLongOrAheadIsRefused() {
        var history = "/rooms/" + new Studio(engineer(), unique("studio")).room() + "/readiness-history";
        var now = clock.instant();
        assertThat(engineer()
                        .get(history + "?from=" + now + "&to=" + now.minusSeconds(1))
                        .expect(400)
                        .text())
                .contains("later than");
        assertThat(engineer()
                        .get(history + "?from=" + now.minus(Duration.ofDays(900)))
                        .expect(400)
                        .text())
                .contains("800 days");
        assertThat(engineer()
                        .get(history + "?from=" + now.plusSeconds(5) + "&to=" + now.plusSeconds(9))
                        .expect(400)
                        .text())
                .contains("ahead");
        engineer().get("/rooms/" + UUID.randomUUID() + "/readiness-history").expect(404);
    }

    @Test
    void aMomentThatLiesAheadOrIsNoneIsRefusedWithTheRightForm() {
        var room = new Studio(engineer(), unique("studio")).room();
        clock.advance(Duration.ofMinutes(1));
        var ahead = clock.instant().plusSeconds(1);
        assertThat(engineer()
                        .get("/rooms/" + room + "/readiness?as-of=" + ahead)
                        .expect(400)
                        .text())
                .contains("lies ahead");
        assertThat(engineer()
                        .get("/rooms/" + room + "/readiness?as-of=tuesday")
                        .expect(400)
                        .text())
                .contains("2026-11-24T18:00:00Z");
        engineer().get("/due?as-of=" + clock.instant()).expect(400);
        engineer()
                .get("/rooms/" + room + "/readiness?as-of=" + clock.instant().minusSeconds(1))
                .expect(200);
    }

    @Test
    void aRoomIsNotThereBeforeItWasEntered() {
        var before = clock.instant();
        clock.advance(Duration.ofMinutes(1));
        var room = new Studio(engineer(), unique("studio")).room();
        engineer().get("/rooms/" + room + "/readiness?as-of=" + before).expect(404);
        engineer().get("/rooms/" + room + "/readiness").expect(200);
    }

    /** Where two answers part, in both. */
    private static String apart(String now, String then) {
        var at = 0;
        while (at < Math.min(now.length(), then.length()) && now.charAt(at) == then.charAt(at)) {
            at++;
        }
        var from = Math.max(0, at - 150);
        return "now ..." + now.substring(from, Math.min(now.length(), at + 250)) + "..., then ..."
                + then.substring(from, Math.min(then.length(), at + 250)) + "...";
    }

    private final class Year {

        final Random random;
        final Studio studio = new Studio(engineer(), unique("year"));
        final List<UUID> presets = new ArrayList<>(List.of(studio.hero()));
        final List<UUID> displays = new ArrayList<>();
        final UUID otherRoom = UUID.randomUUID();
        final UUID reference = studio.meter(UUID.randomUUID(), studio.name() + " reference", null);
        final UUID limits = UUID.randomUUID();
        final List<String> questions = new ArrayList<>();
        int hours;

        Year(Random random) {
            this.random = random;
            presets.add(studio.display("Follower 1", "lcd"));
            presets.add(studio.display("Follower 2", "oled"));
            limitsOfItsOwn();
            engineer()
                    .post("/rooms", new RoomDraft(otherRoom, studio.facility(), "Store", null))
                    .expect(201);
            for (var preset : presets) {
                displays.add(
                        engineer().get("/presets/" + preset).as(Preset.class).displayId());
                studio.upload(studio.run(preset, Purpose.AS_LEFT, clock.instant(), asAimed()));
                questions.add("/presets/" + preset + "/baselines");
                questions.add("/presets/" + preset + "/findings");
                questions.add("/presets/" + preset + "/forecast");
            }
            questions.add("/rooms/" + studio.room() + "/readiness");
            questions.add("/facilities/" + studio.facility() + "/readiness");
            questions.add("/rooms/" + studio.room() + "/trims");
            questions.add("/rooms/" + studio.room() + "/sheet");
            questions.add("/matches?hero=" + studio.hero());
            questions.add("/alerts?room=" + studio.room() + "&state=open&state=acknowledged&state=closed");
            questions.add("/tolerance-sets/" + limits);
            questions.add("/targets/" + studio.target());
            questions.add("/instruments/" + studio.instrument() + "/corrections");
        }

        Map<String, String> said() {
            var said = new LinkedHashMap<String, String>();
            for (var question : questions) {
                said.put(question, ask(question, ""));
            }
            return said;
        }

        String ask(String question, String asOf) {
            var mark = asOf.isEmpty() ? "" : (question.contains("?") ? "&" : "?") + asOf;
            return engineer().get(question + mark).text();
        }

        String somethingHappens() {
            var preset = presets.get(random.nextInt(presets.size()));
            var follower = presets.get(1 + random.nextInt(2));
            return switch (random.nextInt(16)) {
                case 0, 1 -> "calibrated: " + measure(preset, Purpose.AS_LEFT, asAimed());
                case 2, 3, 4 -> "checked: " + measure(preset, Purpose.CHECK, drifted());
                case 5, 6 -> "matched: " + match(follower);
                case 7 -> "run withdrawn: " + withdrawRun(preset);
                case 8 -> "match withdrawn: " + withdrawMatch(follower);
                case 9 -> "alert: " + answerAnAlert();
                case 10 -> "hero: " + nameHero();
                case 11 -> "moved: " + move(displays.get(1 + random.nextInt(2)));
                case 12 -> "limits: " + edit();
                case 13 -> "correction: " + correct(follower);
                case 14 -> "counter: " + count(displays.get(0));
                default -> "swept: " + sweep();
            };
        }

        private UnaryOperator<XYZ> drifted() {
            return random.nextBoolean()
                    ? Studio.dimmed(1 - random.nextDouble() * 0.15)
                    : Studio.tinted(random.nextGaussian() * 0.003, random.nextGaussian() * 0.003);
        }

        private int measure(UUID preset, Purpose purpose, UnaryOperator<XYZ> bend) {
            return post("/runs", studio.run(preset, purpose, clock.instant(), bend));
        }

        private int match(UUID follower) {
            var heroRun = studio.run(studio.hero(), Purpose.MATCH, clock.instant(), asAimed());
            var run = studio.run(follower, Purpose.MATCH, clock.instant(), Studio.tinted(0.006, -0.002));
            post("/runs", heroRun);
            post("/runs", run);
            return post(
                    "/matches",
                    studio.signOffDraft(follower, "operator " + random.nextInt(2), run.id(), heroRun.id(), List.of()));
        }

        private int withdrawRun(UUID preset) {
            return engineer().get("/runs?preset=" + preset + "&limit=1").asPageOf(Run.class).items().stream()
                    .mapToInt(run ->
                            post("/runs/" + run.id() + "/withdrawal", new RunWithdrawalDraft("the wrong preset", null)))
                    .findFirst()
                    .orElse(0);
        }

        private int withdrawMatch(UUID follower) {
            return engineer().get("/matches?follower=" + follower + "&limit=1").asPageOf(Match.class).items().stream()
                    .mapToInt(match -> post(
                            "/matches/" + match.id() + "/withdrawal",
                            new MatchWithdrawalDraft("the wrong operator", null)))
                    .findFirst()
                    .orElse(0);
        }

        private int answerAnAlert() {
            return engineer()
                    .get("/alerts?room=" + studio.room() + "&state=open")
                    .asPageOf(Alert.class)
                    .items()
                    .stream()
                    .mapToInt(alert -> random.nextBoolean()
                            ? post("/alerts/" + alert.id() + "/acknowledgement", new Acknowledgement("looking"))
                            : post("/alerts/" + alert.id() + "/closure", new Closure("known")))
                    .findFirst()
                    .orElse(0);
        }

        private int nameHero() {
            return post("/rooms/" + studio.room() + "/heroes", new HeroDraft(presets.get(random.nextInt(2)), null));
        }

        private int move(UUID display) {
            var to = random.nextInt(3) == 0 ? otherRoom : studio.room();
            return post("/displays/" + display + "/moves", new MoveDraft(UUID.randomUUID(), to, null, "rebuilt"));
        }

        /** The limits are of this year alone: others share the set that comes with the book. */
        private void limitsOfItsOwn() {
            engineer().post("/tolerance-sets", limits(60)).expect(201);
            var target = engineer().get("/targets/" + studio.target());
            var was = target.as(Target.class);
            var draft = new TargetDraft(
                    was.id(),
                    was.name(),
                    was.primaries(),
                    was.eotf(),
                    was.gamma(),
                    was.signalRange(),
                    was.bitDepth(),
                    was.peakLuminance(),
                    was.blackLuminance(),
                    limits);
            engineer().put("/targets/" + studio.target(), draft, target.etag()).expect(200);
        }

        private ToleranceSetDraft limits(int days) {
            var book = engineer().get("/tolerance-sets/" + Samples.HDR_GRADING).as(ToleranceSet.class);
            return new ToleranceSetDraft(
                    limits,
                    studio.name(),
                    book.description(),
                    book.warmUpMinutes(),
                    days,
                    book.recalibrationPanelHours(),
                    book.hysteresis(),
                    book.conformanceProbability(),
                    book.tolerances());
        }

        private int edit() {
            var there = engineer().get("/tolerance-sets/" + limits);
            return engineer()
                    .put("/tolerance-sets/" + limits, limits(20 + random.nextInt(60)), there.etag())
                    .status();
        }

        private int correct(UUID preset) {
            var made = engineer()
                    .get("/instruments/" + studio.instrument() + "/corrections")
                    .asListOf(Correction.class);
            var standing = made.stream()
                    .filter(correction -> correction.withdrawal() == null)
                    .findFirst();
            if (standing.isPresent() && random.nextBoolean()) {
                return post(
                        "/instruments/" + studio.instrument() + "/corrections/"
                                + standing.get().id() + "/withdrawal",
                        new CorrectionWithdrawalDraft("the filter fell out"));
            }
            var byReference = studio.run(preset, reference, Purpose.CHECK, clock.instant(), 60, asAimed());
            var byField = studio.run(preset, Purpose.CHECK, clock.instant().plusSeconds(1), Studio.tinted(0.002, 0));
            post("/runs", byReference);
            clock.advance(Duration.ofSeconds(1));
            post("/runs", byField);
            return post(
                    "/instruments/" + studio.instrument() + "/corrections",
                    new CorrectionDraft(
                            UUID.randomUUID(), null, "model lcd", byReference.id(), byField.id(), false, null, null));
        }

        private int count(UUID display) {
            hours += random.nextInt(300);
            return post("/displays/" + display + "/panel-hours", new PanelHoursDraft(hours, null, null));
        }

        private String sweep() {
            sweep.run();
            return "done";
        }

        private int post(String path, Object body) {
            return engineer().post(path, body).status();
        }
    }
}
