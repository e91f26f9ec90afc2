package panelbook.app.planning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Random;
import java.util.UUID;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.simulation.Ageing;
import panelbook.wire.DueList;
import panelbook.wire.DuePreset;
import panelbook.wire.DueReason;
import panelbook.wire.FigureForecast;
import panelbook.wire.ForecastAnswer;
import panelbook.wire.Metric;
import panelbook.wire.PresetForecast;
import panelbook.wire.Purpose;
import panelbook.wire.RunUpload;
import panelbook.wire.SegmentStart;
import panelbook.wire.Sureness;

/**
 * Forecasts and the due list through the service's own door, on simulated displays whose truth is known: they age as Fery et
 * al., Appl. Phys. Lett. 87 (2005) 213502 describe, so that the hour of the crossing is known in closed form.
 */
class LookingAheadTest extends ServiceTest {

    private static final double HOURS_PER_DAY = 10;
    private static final int EVERY_DAYS = 7;

    /** The set "HDR grading" watches a change of peak luminance by so much; read from the service. */
    private double limitPercent;

    private Studio studio;
    private Instant start;
    private UUID meter;

    @BeforeEach
    void enter() {
        studio = new Studio(engineer(), unique("Ahead"));
        limitPercent = engineer()
                .get("/tolerance-sets?name=HDR grading")
                .tree()
                .at("/items/0/tolerances")
                .valueStream()
                .filter(t -> t.path("metric").asString().equals("own-drift-luminance"))
                .findFirst()
                .orElseThrow()
                .path("limit")
                .asDouble();
        start = clock.instant().minus(Duration.ofDays(120));
        meter = studio.meter(
                UUID.randomUUID(), unique("Certified"), clock.instant().plus(Duration.ofDays(2000)));
    }

    @Test
    void aDisplayThatAgesIsForecastToCrossItsLimitWithinTheBandOfTheTruth() {
        var ageing = new Ageing(40_000, 0.9);
        age(studio.hero(), start, EVERY_DAYS, 12, ageing, 0.001, new Random(7));
        var forecast = forecast(studio.hero());
        var luminance = figure(forecast, Metric.OWN_DRIFT_LUMINANCE);
        // exp(-(t/tau)^beta) = 1 - limit
        var truth = 40_000 * Math.pow(-Math.log(1 - limitPercent / 100), 1 / 0.9);
        assertThat(luminance.answer()).as(luminance.explanation()).isEqualTo(ForecastAnswer.CROSSES);
        assertThat(luminance.earliest()).isNotNull();
        assertThat(luminance.earliest().panelHours())
                .as("earliest at 90 %% lies before the true %s h", truth)
                .isLessThan(truth)
                .isGreaterThan(12 * EVERY_DAYS * HOURS_PER_DAY * 0.9);
        assertThat(luminance.expected()).isNotNull();
        assertThat(luminance.expected().panelHours())
                .as("expected is near the true %s h", truth)
                .isBetween(0.7 * truth, 1.4 * truth);
        assertThat(luminance.readings()).isEqualTo(13);
        assertThat(luminance.points()).hasSize(13).allMatch(point -> point.used());
        assertThat(luminance.fit())
                .hasSizeGreaterThan(20)
                .allMatch(v -> v.low() <= v.expected() && v.expected() <= v.high());
    }

    @Test
    void hoursBecomeDatesByTheDisplaysOwnHoursADay() {
        age(studio.hero(), start, EVERY_DAYS, 12, new Ageing(40_000, 0.9), 0.001, new Random(7));
        var forecast = forecast(studio.hero());
        assertThat(forecast.hoursPerDay()).isNotNull().isBetween(HOURS_PER_DAY - 0.01, HOURS_PER_DAY + 0.01);
        var crossing = figure(forecast, Metric.OWN_DRIFT_LUMINANCE).expected();
        assertThat(crossing).isNotNull();
        var expected = start.plus(Duration.ofMinutes(Math.round(crossing.panelHours() / HOURS_PER_DAY * 24 * 60)));
        assertThat(crossing.at()).isNotNull();
        assertThat(Duration.between(expected, crossing.at()).abs()).isLessThan(Duration.ofHours(1));
    }

    @Test
    void aWhiteThatWandersIsForecastByTheWayItGoes() {
        for (var week = 0; week <= 12; week++) {
            var run = run(
                    studio.hero(),
                    week == 0 ? Purpose.AS_LEFT : Purpose.CHECK,
                    start.plus(Duration.ofDays(7L * week)),
                    Studio.tinted(0.00008 * week, 0.00006 * week));
            studio.upload(Studio.atPanelHours(run, week * 70));
        }
        var white = figure(forecast(studio.hero()), Metric.OWN_DRIFT_WHITE);
        assertThat(white.answer()).as(white.explanation()).isEqualTo(ForecastAnswer.CROSSES);
        assertThat(white.limit()).isNotNull();
        // 0.0001 in u'v' each 70 h along one direction, by construction
        var truth = white.limit() / 0.0001 * 70;
        assertThat(white.expected()).isNotNull();
        assertThat(white.expected().panelHours()).isBetween(0.99 * truth, 1.01 * truth);
    }

    @Test
    void tooFewReadingsSaySoInsteadOfADate() {
        age(studio.hero(), start, EVERY_DAYS, 3, new Ageing(20_000, 0.9), 0.001, new Random(3));
        for (var figure : forecast(studio.hero()).figures()) {
            assertThat(figure.answer()).isEqualTo(ForecastAnswer.TOO_FEW_READINGS);
            assertThat(figure.explanation()).contains("4 of the 5 readings");
            assertThat(figure.expected()).isNull();
            assertThat(figure.earliest()).isNull();
            assertThat(figure.fit()).isEmpty();
            assertThat(figure.points()).hasSize(4);
        }
    }

    @Test
    void aDisplayThatStandsStillIsFlatAndOneThatWasNeverCalibratedHasNothingToDriftFrom() {
        age(studio.hero(), start, EVERY_DAYS, 12, Ageing.NONE, 0, new Random(1));
        var figures = forecast(studio.hero()).figures();
        assertThat(figures).extracting(FigureForecast::answer).containsOnly(ForecastAnswer.FLAT);
        var other = studio.display("New", "oled");
        assertThat(forecast(other).figures())
                .extracting(FigureForecast::answer)
                .containsOnly(ForecastAnswer.NO_REFERENCE);
    }

    @Test
    void aRecalibrationStartsAnew() {
        var ageing = new Ageing(20_000, 0.9);
        age(studio.hero(), start, EVERY_DAYS, 8, ageing, 0.001, new Random(5));
        var anew = start.plus(Duration.ofDays(60));
        studio.upload(Studio.atPanelHours(run(studio.hero(), Purpose.AS_LEFT, anew, Studio.asAimed()), 600));
        var luminance = figure(forecast(studio.hero()), Metric.OWN_DRIFT_LUMINANCE);
        assertThat(luminance.answer()).isEqualTo(ForecastAnswer.TOO_FEW_READINGS);
        assertThat(luminance.segmentStart()).isEqualTo(SegmentStart.RECALIBRATION);
        assertThat(luminance.readings()).isEqualTo(1);
        assertThat(luminance.points()).hasSize(10);
        assertThat(luminance.points().stream().filter(point -> point.used())).hasSize(1);
    }

    @Test
    void aForecastBeginsAnewAfterAStepForTheFigureThatStepped() {
        var ageing = new Ageing(150_000, 0.9);
        var random = new Random(11);
        for (var check = 0; check <= 22; check++) {
            var hours = 50.0 * check;
            // a step by 3 % after twelve runs
            var light = ageing.remaining(hours) * (check < 12 ? 1 : 0.97) * (1 + 0.0005 * random.nextGaussian());
            var run = run(
                    studio.hero(),
                    check == 0 ? Purpose.AS_LEFT : Purpose.CHECK,
                    start.plus(Duration.ofDays(5L * check)),
                    Studio.dimmed(light));
            studio.upload(Studio.atPanelHours(run, hours));
        }
        var forecast = forecast(studio.hero());
        var luminance = figure(forecast, Metric.OWN_DRIFT_LUMINANCE);
        assertThat(luminance.segmentStart()).isEqualTo(SegmentStart.STEP);
        assertThat(luminance.readings()).isEqualTo(11);
        assertThat(luminance.points()).hasSize(23);
        assertThat(luminance.explanation()).contains("it stepped just before the first of them");
        // exp(-(t/tau)^beta) * 0.97 = 1 - limit, from the state it was left in
        var truth = 150_000 * Math.pow(-Math.log((1 - limitPercent / 100) / 0.97), 1 / 0.9);
        assertThat(luminance.answer()).as(luminance.explanation()).isEqualTo(ForecastAnswer.CROSSES);
        assertThat(luminance.earliest()).isNotNull();
        assertThat(luminance.earliest().panelHours()).isLessThan(truth);
        assertThat(luminance.expected()).isNotNull();
        assertThat(luminance.expected().panelHours())
                .as("expected is near the true %s h", truth)
                .isBetween(0.6 * truth, 1.6 * truth);
        var white = figure(forecast, Metric.OWN_DRIFT_WHITE);
        assertThat(white.segmentStart()).isEqualTo(SegmentStart.FIRST);
        assertThat(engineer()
                        .get("/presets/" + studio.hero() + "/forecast.svg")
                        .expect(200)
                        .text())
                .contains("since step, ");
    }

    @Test
    void aSignOffLeavesTheDisplayInAnotherStateAndStartsAnew() {
        var follower = studio.display("Client", "lcd");
        studio.upload(Studio.atPanelHours(run(studio.hero(), Purpose.AS_LEFT, start, Studio.asAimed()), 10));
        age(follower, start, EVERY_DAYS, 8, new Ageing(20_000, 0.9), 0.001, new Random(5));
        var signed = start.plus(Duration.ofDays(63));
        var closing = Studio.atPanelHours(run(follower, Purpose.MATCH, signed, Studio.tinted(0.004, 0.002)), 630);
        var heroClosing = run(studio.hero(), Purpose.MATCH, signed, Studio.asAimed());
        studio.upload(closing);
        studio.upload(heroClosing);
        studio.signOff(follower, "operator A", closing, heroClosing);
        var white = figure(forecast(follower), Metric.OWN_DRIFT_WHITE);
        assertThat(white.segmentStart()).isEqualTo(SegmentStart.SIGN_OFF);
        assertThat(white.answer()).isEqualTo(ForecastAnswer.TOO_FEW_READINGS);
        assertThat(white.points().get(white.points().size() - 1).value())
                .as("distance from the white that was signed off")
                .isZero();
    }

    @Test
    void runsWithoutACounterTakeItsValueFromThoseAroundThemOrAreLeftOutAndCounted() {
        for (var week = 0; week <= 8; week++) {
            var run = run(
                    studio.hero(),
                    week == 0 ? Purpose.AS_LEFT : Purpose.CHECK,
                    start.plus(Duration.ofDays(7L * week)),
                    Studio.dimmed(1 - 0.001 * week));
            studio.upload(week == 4 || week == 8 ? run : Studio.atPanelHours(run, 70.0 * week));
        }
        var forecast = forecast(studio.hero());
        assertThat(forecast.runsWithoutPanelHours()).isEqualTo(1);
        assertThat(figure(forecast, Metric.OWN_DRIFT_LUMINANCE).points())
                .extracting(point -> point.panelHours())
                .containsExactly(0.0, 70.0, 140.0, 210.0, 280.0, 350.0, 420.0, 490.0);
    }

    @Test
    void aMistypedCounterIsAskedAboutAndACounterThatWasResetStartsAnew() {
        for (var week = 0; week <= 12; week++) {
            var run = run(
                    studio.hero(),
                    week == 0 ? Purpose.AS_LEFT : Purpose.CHECK,
                    start.plus(Duration.ofDays(7L * week)),
                    Studio.dimmed(1 - 0.001 * week));
            var counter = week < 7 ? 5000 + 70.0 * week : 70.0 * (week - 7);
            studio.upload(Studio.atPanelHours(run, week == 10 ? 99_000 : counter));
        }
        var luminance = figure(forecast(studio.hero()), Metric.OWN_DRIFT_LUMINANCE);
        assertThat(luminance.segmentStart()).isEqualTo(SegmentStart.COUNTER_RESET);
        assertThat(luminance.readings()).isEqualTo(5);
        assertThat(luminance.points())
                .filteredOn(point -> point.doubtful())
                .extracting(point -> point.panelHours())
                .containsExactly(99_000.0);
    }

    @Test
    void aPresetIsDueByPanelHoursWhenItsOwnUseReachesThem() {
        age(studio.hero(), start, EVERY_DAYS, 8, Ageing.NONE, 0, new Random(1));
        var set = engineer().get("/tolerance-sets?name=HDR grading").tree();
        var allowed = set.at("/items/0/recalibrationPanelHours").asDouble();
        var rule = due("?room=" + studio.room()).presets().get(0).rules().stream()
                .filter(one -> one.reason() == DueReason.RECALIBRATION_PANEL_HOURS)
                .findFirst()
                .orElseThrow();
        assertThat(rule.sureness()).isEqualTo(Sureness.OWN_USE);
        assertThat(Duration.between(
                                start.plus(Duration.ofMinutes(Math.round(allowed / HOURS_PER_DAY * 24 * 60))),
                                rule.at())
                        .abs())
                .isLessThan(Duration.ofMinutes(5));
    }

    @Test
    void theDueListComesEarliestFirstWithEveryRuleAndHowSureItIs() {
        var ages = studio.display("Ages", "oled");
        var never = studio.display("Never", "oled");
        var old = clock.instant().minus(Duration.ofDays(500));
        studio.upload(run(studio.hero(), Purpose.AS_LEFT, old, Studio.asAimed()));
        // still within the 60 days and 750 h of the set, so that only what lies ahead makes it due
        age(ages, clock.instant().minus(Duration.ofDays(40)), 3, 12, new Ageing(40_000, 0.9), 0.001, new Random(7));
        var due = due("?room=" + studio.room());
        assertThat(due.presets()).extracting(DuePreset::presetId).containsExactly(studio.hero(), never, ages);
        assertThat(due.presets()).extracting(DuePreset::due).containsExactly(true, true, false);
        assertThat(due.presets().get(0).rules().get(0).reason()).isEqualTo(DueReason.RECALIBRATION_DAYS);
        assertThat(due.presets().get(1).rules().get(0).reason()).isEqualTo(DueReason.NEVER_CALIBRATED);
        var rules = due.presets().get(2).rules();
        assertThat(rules).isSortedAccordingTo(java.util.Comparator.comparing(rule -> rule.at()));
        assertThat(due.presets().get(2).dueAt()).isEqualTo(rules.get(0).at());
        assertThat(rules)
                .filteredOn(rule -> rule.reason() == DueReason.LUMINANCE_FORECAST)
                .extracting(rule -> rule.sureness())
                .containsExactly(Sureness.EARLIEST_AT_90, Sureness.EXPECTED);
        assertThat(rules)
                .filteredOn(rule -> rule.reason() == DueReason.RECALIBRATION_DAYS)
                .extracting(rule -> rule.sureness())
                .containsExactly(Sureness.CALENDAR);
        var today = clock.instant().atOffset(ZoneOffset.UTC).toLocalDate();
        assertThat(due("?facility=" + studio.facility() + "&until=" + today).presets())
                .as("what is due by today")
                .extracting(DuePreset::presetId)
                .containsExactly(studio.hero(), never);
        assertThat(due("?room=" + studio.room()).instruments())
                .extracting(meter -> meter.instrumentId())
                .containsExactly(meter);
    }

    @Test
    void aFollowerIsDueOnceItsHeroWasRecalibratedSinceTheMatch() {
        var follower = studio.display("Client", "lcd");
        var heroRun = run(studio.hero(), Purpose.AS_LEFT, start, Studio.asAimed());
        var followerRun = run(follower, Purpose.AS_LEFT, start, Studio.asAimed());
        studio.upload(heroRun);
        studio.upload(followerRun);
        studio.signOff(follower, "operator A", followerRun, heroRun);
        assertThat(reasons(follower)).doesNotContain(DueReason.HERO_RECALIBRATED, DueReason.MATCH_IN_QUESTION);
        studio.upload(run(studio.hero(), Purpose.AS_LEFT, start.plus(Duration.ofDays(10)), Studio.tinted(0.0005, 0)));
        assertThat(reasons(follower)).contains(DueReason.HERO_RECALIBRATED);
        assertThat(due("?room=" + studio.room()).toString())
                .contains("The hero was recalibrated since the match for operator A.");
        assertThat(reasons(studio.hero())).doesNotContain(DueReason.HERO_RECALIBRATED);
    }

    @Test
    void badParametersAreRefusedPlainly() {
        var room = "?room=" + studio.room();
        assertThat(refused(room + "&facility=" + studio.facility())).contains("Name a room or a facility, not both.");
        assertThat(refused("?room=" + UUID.randomUUID())).contains("There is no room");
        assertThat(refused("?facility=" + UUID.randomUUID())).contains("There is no facility");
        assertThat(refused("?until=2001-01-01")).contains("Must not lie before today");
        assertThat(refused("?until=soon")).contains("until");
        assertThat(refused("?rooms=x")).contains("There is no such parameter");
        engineer()
                .get("/presets/" + UUID.randomUUID() + "/forecast")
                .expect(404)
                .problem();
    }

    private RunUpload run(UUID preset, Purpose purpose, Instant at, UnaryOperator<XYZ> bend) {
        return studio.run(preset, meter, purpose, at, 60, bend);
    }

    private String refused(String query) {
        return engineer().get("/due" + query).expect(400).problem().detail();
    }

    private List<DueReason> reasons(UUID preset) {
        return due("?room=" + studio.room()).presets().stream()
                .filter(line -> line.presetId().equals(preset))
                .flatMap(line -> line.rules().stream())
                .map(rule -> rule.reason())
                .toList();
    }

    /** A baseline and checks every so many days, noise of the luminance being a share. */
    private void age(UUID preset, Instant from, int everyDays, int checks, Ageing ageing, double noise, Random random) {
        for (var check = 0; check <= checks; check++) {
            var at = check * everyDays * HOURS_PER_DAY;
            var light = ageing.remaining(at) * (check == 0 ? 1 : 1 + noise * random.nextGaussian());
            UnaryOperator<XYZ> bend = xyz -> xyz.times(light);
            var purpose = check == 0 ? Purpose.AS_LEFT : Purpose.CHECK;
            studio.upload(Studio.atPanelHours(
                    run(preset, purpose, from.plus(Duration.ofDays((long) everyDays * check)), bend), at));
        }
    }

    private PresetForecast forecast(UUID preset) {
        return engineer().get("/presets/" + preset + "/forecast").expect(200).as(PresetForecast.class);
    }

    private DueList due(String query) {
        return engineer().get("/due" + query).expect(200).as(DueList.class);
    }

    private static FigureForecast figure(PresetForecast forecast, Metric metric) {
        return forecast.figures().stream()
                .filter(figure -> figure.metric() == metric)
                .findFirst()
                .orElseThrow();
    }
}
