package panelbook.app.assessment;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.Basis;
import panelbook.wire.Closure;
import panelbook.wire.Finding;
import panelbook.wire.Metric;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.Target;
import panelbook.wire.TargetDraft;
import panelbook.wire.Tolerance;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetDraft;

/** What becomes true without an upload: time passes, limits are edited. */
class SweepTest extends ServiceTest {

    @Autowired
    private Sweep sweep;

    private Studio studio;

    @BeforeEach
    void calibrateAHero() {
        studio = new Studio(engineer(), unique("studio"));
        var now = clock.advance(Duration.ofMinutes(10));
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, now, asAimed()));
    }

    @Test
    void aBaselineThatGrewTooOldRaisesOneAlertThatAPersonCanClose() {
        clock.advance(Duration.ofDays(60));
        sweep.run();
        assertThat(openAlerts()).as("60 days are allowed").isEmpty();
        clock.advance(Duration.ofDays(2));
        sweep.run();
        sweep.run();
        assertThat(openAlerts()).extracting(Alert::cause).containsExactly(AlertCause.RECALIBRATION_DUE);
        engineer()
                .post("/alerts/" + openAlerts().get(0).id() + "/closure", new Closure("room is empty until May"))
                .expect(200);
        sweep.run();
        assertThat(openAlerts()).as("not opened again for the same baseline").isEmpty();
    }

    @Test
    void panelHoursThatAPersonEntersMakeABaselineOverdue() {
        var now = clock.advance(Duration.ofMinutes(10));
        var run = studio.run(studio.hero(), Purpose.AS_LEFT, now, asAimed());
        studio.upload(Studio.atPanelHours(run, 1000));
        var display =
                engineer().get("/presets/" + studio.hero()).as(Preset.class).displayId();
        clock.advance(Duration.ofDays(30));
        engineer()
                .post("/displays/" + display + "/panel-hours", new PanelHoursDraft(1751, null, "read off the menu"))
                .expect(201);
        sweep.run();
        assertThat(openAlerts()).singleElement().satisfies(alert -> {
            assertThat(alert.cause()).isEqualTo(AlertCause.RECALIBRATION_DUE);
            assertThat(alert.headline()).contains("It has run 751 h since it was calibrated.");
        });
    }

    @Test
    void anEditedLimitHoldsForWhatWasMeasuredBefore() {
        var strict = strictSet();
        var target = engineer().get("/targets/" + studio.target());
        var edited = target.as(Target.class);
        engineer()
                .put(
                        "/targets/" + studio.target(),
                        new TargetDraft(
                                edited.id(),
                                edited.name(),
                                edited.primaries(),
                                edited.eotf(),
                                edited.gamma(),
                                edited.signalRange(),
                                edited.bitDepth(),
                                edited.peakLuminance(),
                                edited.blackLuminance(),
                                strict),
                        target.etag())
                .expect(200);
        sweep.run();
        var standing = engineer().get("/presets/" + studio.hero() + "/findings").asListOf(Finding.class);
        assertThat(standing)
                .as("only what the new set judges stands")
                .extracting(Finding::metric)
                .containsOnly(Metric.BLACK_LUMINANCE);
        assertThat(standing.get(0).limit()).isEqualTo(0.0001);
        assertThat(openAlerts()).extracting(Alert::cause).containsExactly(AlertCause.OFF_TARGET);
    }

    private java.util.UUID strictSet() {
        var draft = new ToleranceSetDraft(
                java.util.UUID.randomUUID(),
                unique("strict"),
                "black only",
                0,
                null,
                null,
                0.1,
                0.95,
                List.of(new Tolerance(Metric.BLACK_LUMINANCE, 0.0001, Basis.HOUSE_POLICY, null, null, null)));
        return engineer()
                .post("/tolerance-sets", draft)
                .expect(201)
                .as(ToleranceSet.class)
                .id();
    }

    private List<Alert> openAlerts() {
        return engineer().all("/alerts?room=" + studio.room(), Alert.class);
    }
}
