package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Basis;
import panelbook.wire.EotfKind;
import panelbook.wire.Metric;
import panelbook.wire.Preset;
import panelbook.wire.Primaries;
import panelbook.wire.Retirement;
import panelbook.wire.SignalRange;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetDraft;

class TargetsTest extends ServiceTest {

    @Autowired
    private JdbcClient jdbc;

    private Samples samples;

    @BeforeEach
    void samples() {
        samples = new Samples(engineer());
    }

    @Test
    void aTargetIsReadAsItWasAdded() {
        var draft = Samples.targetDraft();

        var target = engineer().post("/targets", draft).expect(201).as(Target.class);

        assertThat(Targets.draft(target)).isEqualTo(draft);
        assertThat(target.toleranceSet()).isEqualTo("HDR grading");
        assertThat(engineer().get("/targets/" + draft.id()).as(Target.class)).isEqualTo(target);
        assertThat(engineer().post("/targets", draft).expect(200).as(Target.class))
                .isEqualTo(target);
    }

    @Test
    void anEditAddsARevisionAndTheFormerOneStays() {
        var target = samples.target();
        var draft = with(Targets.draft(target), d -> copy(d, d.primaries(), d.eotf(), d.gamma(), 10, 600, 0.001));

        var edited = engineer().put("/targets/" + target.id(), draft, "\"0\"").expect(200);

        assertThat(edited.etag()).isEqualTo("\"1\"");
        assertThat(edited.as(Target.class).peakLuminance()).isEqualTo(600);
        assertThat(jdbc.sql("select peak_luminance from target_revision where target_id = ? order by revision")
                        .param(target.id())
                        .query(Double.class)
                        .list())
                .containsExactly(1000.0, 600.0);
        engineer().put("/targets/" + target.id(), draft, "\"0\"").expect(412);
        assertThat(engineer()
                        .put("/targets/" + target.id(), draft, "\"1\"")
                        .expect(200)
                        .etag())
                .as("an edit that changes nothing makes no revision")
                .isEqualTo("\"1\"");
    }

    static Stream<Arguments> wrongTargets() {
        var p = Samples.BT2020;
        return Stream.of(
                wrong("/primaries/redX", d -> copy(d, red(0.9, 0.3), d.eotf(), null, 10, 1000, 0)),
                wrong("/primaries/redX", d -> copy(d, red(0.7, 0), d.eotf(), null, 10, 1000, 0)),
                wrong("/primaries", d -> copy(d, red(0.150, 0.4), d.eotf(), null, 10, 1000, 0)),
                wrong(
                        "/primaries",
                        d -> copy(
                                d,
                                new Primaries(
                                        p.greenX(),
                                        p.greenY(),
                                        p.redX(),
                                        p.redY(),
                                        p.blueX(),
                                        p.blueY(),
                                        0.3127,
                                        0.3290),
                                d.eotf(),
                                null,
                                10,
                                1000,
                                0)),
                wrong("/primaries/whiteX", d -> copy(d, red(0.35, 0.292), EotfKind.PQ, null, 10, 1000, 0, 0.6, 0.35)),
                wrong("/gamma", d -> copy(d, d.primaries(), EotfKind.POWER, null, 10, 100, 0)),
                wrong("/gamma", d -> copy(d, d.primaries(), EotfKind.PQ, 2.4, 10, 100, 0)),
                wrong("/gamma", d -> copy(d, d.primaries(), EotfKind.POWER, 24.0, 10, 100, 0)),
                wrong("/bitDepth", d -> copy(d, d.primaries(), d.eotf(), null, 7, 100, 0)),
                wrong("/peakLuminance", d -> copy(d, d.primaries(), d.eotf(), null, 10, 10001, 0)),
                wrong("/blackLuminance", d -> copy(d, d.primaries(), d.eotf(), null, 10, 100, 100)),
                wrong("/blackLuminance", d -> copy(d, d.primaries(), d.eotf(), null, 10, 100, -0.1)));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("wrongTargets")
    void aTargetThatNobodyCouldAimAtIsRefused(String pointer, UnaryOperator<TargetDraft> wrong) {
        var problem = engineer()
                .post("/targets", wrong.apply(Samples.targetDraft()))
                .expect(400)
                .problem();

        assertThat(problem.errors()).extracting("pointer").containsExactly(pointer);
    }

    @Test
    void aTargetThatPresetsAimAtIsNotRetired() {
        var target = samples.target();
        var display = samples.display(samples.facility().id(), null);
        var preset = samples.preset(display.id(), target.id());
        var path = "/targets/" + target.id() + "/retirement";

        assertThat(engineer()
                        .post(path, new Retirement(null))
                        .expect(409)
                        .problem()
                        .detail())
                .contains(display.name() + "/" + preset.name());
        engineer()
                .post("/presets/" + preset.id() + "/retirement", new Retirement(null))
                .expect(200)
                .as(Preset.class);
        var retired = engineer()
                .post(path, new Retirement("nobody grades so"))
                .expect(200)
                .as(Target.class);

        assertThat(retired.retiredAt()).isEqualTo(clock.instant());
        assertThat(retired.version()).isEqualTo(1);
        assertThat(engineer().get("/targets/" + target.id()).as(Target.class)).isEqualTo(retired);
        var late = new panelbook.wire.PresetDraft(UUID.randomUUID(), display.id(), "Late", target.id());
        assertThat(engineer().post("/presets", late).expect(409).problem().detail())
                .contains("is retired");
    }

    @Test
    void aToleranceSetIsReadAsItWasAddedWhateverTheOrderOfItsLimits() {
        var draft = setDraft(
                limit(Metric.OWN_DRIFT_WHITE, 0.003),
                new Tolerance(
                        Metric.BLACK_LUMINANCE,
                        0.005,
                        Basis.SECONDARY,
                        "ITU-R BT.2100-2",
                        "Table 3",
                        "Set with PLUGE."));

        var set = engineer().post("/tolerance-sets", draft).expect(201).as(ToleranceSet.class);

        assertThat(set.tolerances()).containsExactlyInAnyOrderElementsOf(draft.tolerances());
        assertThat(ToleranceSets.draft(set)).isEqualTo(ToleranceSets.sorted(draft));
        assertThat(engineer().post("/tolerance-sets", draft).expect(200).as(ToleranceSet.class))
                .isEqualTo(set);
        assertThat(engineer().all("/tolerance-sets?name=" + draft.name(), ToleranceSet.class))
                .containsExactly(set);
    }

    @Test
    void findingsCanNameTheRevisionOfAToleranceSetThatJudgedThem() {
        var draft = setDraft(limit(Metric.OWN_DRIFT_WHITE, 0.003));
        engineer().post("/tolerance-sets", draft).expect(201);
        var edit = new ToleranceSetDraft(
                draft.id(),
                draft.name(),
                "tightened",
                45,
                null,
                null,
                0.2,
                0.9,
                List.of(limit(Metric.OWN_DRIFT_WHITE, 0.002)));

        var edited = engineer()
                .put("/tolerance-sets/" + draft.id(), edit, "\"0\"")
                .expect(200)
                .as(ToleranceSet.class);

        assertThat(edited.version()).isEqualTo(1);
        assertThat(edited.tolerances()).containsExactly(limit(Metric.OWN_DRIFT_WHITE, 0.002));
        assertThat(jdbc.sql("select limit_value from tolerance where tolerance_set_id = ? order by revision")
                        .param(draft.id())
                        .query(Double.class)
                        .list())
                .containsExactly(0.003, 0.002);
    }

    @Test
    void aLimitNeedsASourceAnOnlyPlaceAndAFigure() {
        var draft = setDraft(
                limit(Metric.CONTRAST, 1000),
                limit(Metric.CONTRAST, 2000),
                new Tolerance(Metric.BLACK_LUMINANCE, -1, Basis.TEXT, null, null, null),
                limit(Metric.RECALIBRATION_DAYS, 30),
                limit(Metric.GAMUT_COVERAGE, 101));

        var problem = engineer().post("/tolerance-sets", draft).expect(400).problem();

        assertThat(problem.errors())
                .extracting("pointer")
                .containsExactly(
                        "/tolerances/1/metric",
                        "/tolerances/2/limit",
                        "/tolerances/2/document",
                        "/tolerances/3/metric",
                        "/tolerances/4/limit");
    }

    @Test
    void aToleranceSetThatJudgesTargetsIsNotRetired() {
        var set = engineer().post("/tolerance-sets", setDraft()).expect(201).as(ToleranceSet.class);
        var draft = Samples.targetDraft();
        var target = new TargetDraft(
                draft.id(),
                draft.name(),
                draft.primaries(),
                draft.eotf(),
                null,
                SignalRange.NARROW,
                10,
                1000,
                0,
                set.id());
        engineer().post("/targets", target).expect(201);
        var path = "/tolerance-sets/" + set.id() + "/retirement";

        assertThat(engineer()
                        .post(path, new Retirement(null))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("still judged by it: " + draft.name());
        engineer()
                .post("/targets/" + draft.id() + "/retirement", new Retirement(null))
                .expect(200);
        engineer().post(path, new Retirement(null)).expect(200);
    }

    @Test
    void theSetsThatComeWithTheBookSayWhereTheirFiguresAreFrom() {
        var set = engineer()
                .get("/tolerance-sets/" + Samples.HDR_GRADING)
                .expect(200)
                .as(ToleranceSet.class);

        assertThat(set.name()).isEqualTo("HDR grading");
        assertThat(set.tolerances())
                .as("ITU-R BT.2100-2 table 3, read in a summary")
                .contains(new Tolerance(
                        Metric.BLACK_LUMINANCE,
                        0.005,
                        Basis.SECONDARY,
                        "ITU-R BT.2100-2",
                        "Table 3",
                        "Reference display black, set with PLUGE."));
    }

    private static ToleranceSetDraft setDraft(Tolerance... tolerances) {
        return new ToleranceSetDraft(
                UUID.randomUUID(), unique("House set"), "Ours", 30, 60, 750, 0.1, 0.95, List.of(tolerances));
    }

    private static Tolerance limit(Metric metric, double limit) {
        return new Tolerance(metric, limit, Basis.HOUSE_POLICY, null, null, null);
    }

    private static Arguments wrong(String pointer, UnaryOperator<TargetDraft> change) {
        return Arguments.of(pointer, change);
    }

    private static TargetDraft with(TargetDraft draft, UnaryOperator<TargetDraft> change) {
        return change.apply(draft);
    }

    private static Primaries red(double x, double y) {
        var p = Samples.BT2020;
        return new Primaries(x, y, p.greenX(), p.greenY(), p.blueX(), p.blueY(), p.whiteX(), p.whiteY());
    }

    private static TargetDraft copy(
            TargetDraft d, Primaries p, EotfKind eotf, Double gamma, int bits, double peak, double black) {
        return copy(d, p, eotf, gamma, bits, peak, black, p.whiteX(), p.whiteY());
    }

    private static TargetDraft copy(
            TargetDraft d,
            Primaries p,
            EotfKind eotf,
            Double gamma,
            int bits,
            double peak,
            double black,
            double whiteX,
            double whiteY) {
        var primaries = new Primaries(p.redX(), p.redY(), p.greenX(), p.greenY(), p.blueX(), p.blueY(), whiteX, whiteY);
        return new TargetDraft(
                d.id(), d.name(), primaries, eotf, gamma, d.signalRange(), bits, peak, black, d.toleranceSetId());
    }
}
