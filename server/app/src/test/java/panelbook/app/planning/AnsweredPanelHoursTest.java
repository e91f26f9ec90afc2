package panelbook.app.planning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Drawing;
import panelbook.wire.FigureForecast;
import panelbook.wire.PanelHoursAnswerDraft;
import panelbook.wire.PanelHoursAnswerKind;
import panelbook.wire.PanelHoursQuestion;
import panelbook.wire.Preset;
import panelbook.wire.PresetForecast;
import panelbook.wire.Purpose;
import panelbook.wire.SegmentStart;

/** What people answer about panel hours, in forecasts. */
class AnsweredPanelHoursTest extends ServiceTest {

    private Studio studio;
    private Instant start;
    private UUID meter;

    @BeforeEach
    void enter() {
        studio = new Studio(engineer(), unique("Answered"));
        start = clock.instant().minus(Duration.ofDays(120));
        meter = studio.meter(
                UUID.randomUUID(), unique("Certified"), clock.instant().plus(Duration.ofDays(2000)));
    }

    @Test
    void aTypingErrorInARunLeavesTheSeriesWholeOnceItIsCorrected() {
        upload(0, 70, 140, 210, 99_000, 350, 420);
        var question = questions().get(0);
        assertThat(question.value().hours()).isEqualTo(99_000);
        assertThat(figure().points()).filteredOn(point -> point.doubtful()).hasSize(1);

        answer(question, PanelHoursAnswerKind.TYPING_ERROR, 280.0);

        assertThat(questions()).isEmpty();
        assertThat(figure().segmentStart()).isEqualTo(SegmentStart.FIRST);
        assertThat(figure().points()).hasSize(7).allMatch(point -> point.used() && !point.doubtful());
        assertThat(figure().points().get(4).panelHours()).isEqualTo(280);
    }

    @Test
    void aMistypedValueThatNobodyCanCorrectIsTakenFromThoseAroundIt() {
        upload(0, 70, 140, 210, 99_000, 350, 420);
        answer(questions().get(0), PanelHoursAnswerKind.TYPING_ERROR, null);
        assertThat(figure().points().get(4).panelHours()).isBetween(279.9, 280.1);
        assertThat(figure().readings()).isEqualTo(7);
    }

    @Test
    void aCounterThatWentBackPartsTheSeriesAsAPanelOrAsAResetAsPeopleSay() {
        upload(5000, 5070, 5140, 0, 70, 140);
        assertThat(figure().segmentStart()).isEqualTo(SegmentStart.COUNTER_RESET);
        assertThat(engineer()
                        .get("/presets/" + studio.hero() + "/drawings/peak-luminance")
                        .expect(200)
                        .as(Drawing.class)
                        .summary())
                .as("readings of another counter have no place on the axis")
                .endsWith(" 3 readings of the counter before are not drawn.");
        answer(questions().get(0), PanelHoursAnswerKind.PANEL_REPLACED, null);
        assertThat(figure().segmentStart()).isEqualTo(SegmentStart.PANEL_SWAP);
        assertThat(figure().readings()).isEqualTo(3);

        enter();
        upload(5000, 5070, 5140, 0, 70, 140);
        answer(questions().get(0), PanelHoursAnswerKind.COUNTER_RESET, null);
        assertThat(figure().segmentStart()).isEqualTo(SegmentStart.COUNTER_RESET);
    }

    @Test
    void aUsedPanelWhoseCounterStandsHigherIsAnotherPanelOncePeopleSaySo() {
        upload(0, 70, 140, 9000, 9070, 9140);
        assertThat(figure().segmentStart()).isEqualTo(SegmentStart.COUNTER_JUMP);
        answer(questions().get(0), PanelHoursAnswerKind.PANEL_REPLACED, null);
        assertThat(figure().segmentStart()).isEqualTo(SegmentStart.PANEL_SWAP);
        assertThat(figure().readings()).isEqualTo(3);
        assertThat(questions()).isEmpty();
    }

    @Test
    void aForecastIsServedAsADrawing() {
        upload(0, 70, 140, 210, 280, 350);
        var answer =
                engineer().get("/presets/" + studio.hero() + "/forecast.svg").expect(200);
        assertThat(answer.header("Content-Type")).startsWith("image/svg+xml");
        assertThat(answer.text()).startsWith("<svg").contains("at 350 panel hours");
        engineer()
                .get("/presets/" + UUID.randomUUID() + "/forecast.svg")
                .expect(404)
                .problem();
    }

    private void upload(double... counters) {
        for (var week = 0; week < counters.length; week++) {
            var run = studio.run(
                    studio.hero(),
                    meter,
                    week == 0 ? Purpose.AS_LEFT : Purpose.CHECK,
                    start.plus(Duration.ofDays(7L * week)),
                    60,
                    Studio.dimmed(1 - 0.001 * week));
            studio.upload(Studio.atPanelHours(run, counters[week]));
        }
    }

    private List<PanelHoursQuestion> questions() {
        var display =
                engineer().get("/presets/" + studio.hero()).as(Preset.class).displayId();
        return engineer().all("/panel-hours-questions?display=" + display, PanelHoursQuestion.class);
    }

    private void answer(PanelHoursQuestion question, PanelHoursAnswerKind kind, Double corrected) {
        engineer()
                .post(
                        "/panel-hours-questions/" + question.id() + "/answer",
                        new PanelHoursAnswerDraft(kind, false, corrected, null))
                .expect(200);
    }

    private FigureForecast figure() {
        return engineer()
                .get("/presets/" + studio.hero() + "/forecast")
                .as(PresetForecast.class)
                .figures()
                .get(0);
    }
}
