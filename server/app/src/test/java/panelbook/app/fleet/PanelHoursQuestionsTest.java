package panelbook.app.fleet;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Answer;
import panelbook.app.testing.Samples;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Display;
import panelbook.wire.PanelHours;
import panelbook.wire.PanelHoursAnswerDraft;
import panelbook.wire.PanelHoursAnswerKind;
import panelbook.wire.PanelHoursEntered;
import panelbook.wire.PanelHoursEntry;
import panelbook.wire.PanelHoursList;
import panelbook.wire.PanelHoursQuestion;
import panelbook.wire.PanelHoursQuestionKind;
import panelbook.wire.Role;
import panelbook.wire.RoomSheet;

/** Panel hours of many displays at once, and what is asked about them. That a counter runs no faster than the clock is physics. */
class PanelHoursQuestionsTest extends ServiceTest {

    private Display display;
    private UUID room;

    @BeforeEach
    void display() {
        var samples = new Samples(engineer());
        var facility = samples.facility().id();
        room = samples.room(facility).id();
        display = samples.display(facility, room);
    }

    @Test
    void aCounterThatOnlyRisesAsFastAsTheClockIsNotAskedAbout() {
        assertThat(enter(value(-30, 1000), value(-20, 1240), value(-10, 1242), value(-9, 1267.9))
                        .questions())
                .as("up to two hours more than had passed: values are noted a little after they are read")
                .isEmpty();
    }

    @Test
    void aCounterThatWentBackIsAskedAboutWithBothValues() {
        var question =
                only(enter(value(-30, 1000), value(-20, 1100), value(-10, 40)).questions());

        assertThat(question.kind()).isEqualTo(PanelHoursQuestionKind.WENT_BACK);
        assertThat(question.before().hours()).isEqualTo(1100);
        assertThat(question.value().hours()).isEqualTo(40);
        assertThat(question.text()).contains("1100 h on ", "40 h on ", "replaced", "reset", "mistyped");
        assertThat(question.display()).endsWith("/" + display.name());
        assertThat(sheet().displays().get(0).panelHoursQuestions()).containsExactly(question);
    }

    @Test
    void aCounterThatRunsFasterThanTheClockIsAskedAboutAtOnceAndTheNextValueTellsMore() {
        var question = only(enter(value(-30, 1000), value(-20, 11_000)).questions());
        assertThat(question.kind()).isEqualTo(PanelHoursQuestionKind.FASTER_THAN_THE_CLOCK);

        var again = only(enter(value(-10, 1200)).questions());
        assertThat(again.id()).isEqualTo(question.id());
        assertThat(again.kind()).isEqualTo(PanelHoursQuestionKind.CONTRADICTED);
        assertThat(again.value().hours()).isEqualTo(11_000);
        assertThat(again.after().hours()).isEqualTo(1200);
    }

    @Test
    void aTypingErrorCountsNoLongerAndItsCorrectionDoes() {
        var question = only(
                enter(value(-30, 1000), value(-20, 11_000), value(-10, 1200)).questions());

        var answered = answer(question, PanelHoursAnswerKind.TYPING_ERROR, false, 1100.0)
                .expect(200)
                .as(PanelHoursQuestion.class);

        assertThat(answered.answer().correctedHours()).isEqualTo(1100);
        assertThat(answered.answer().answeredBy()).isEqualTo("calibrator of the tests");
        assertThat(hours()).containsExactly(1200.0, 1100.0, 1000.0);
        assertThat(open()).isEmpty();
        answer(question, PanelHoursAnswerKind.TYPING_ERROR, false, 1100.0).expect(200);
        assertThat(hours()).as("the same answer again").hasSize(3);
        answer(question, PanelHoursAnswerKind.RIGHT, false, null).expect(409);
    }

    @Test
    void aTypingErrorMayLieInTheValueBeforeAndMakesTheQuestionOnTheNextNeedless() {
        var questions =
                enter(value(-30, 1000), value(-20, 91_100), value(-10, 91_200)).questions();
        assertThat(questions).extracting(question -> question.value().hours()).containsExactly(91_100.0);
        var first = enter(value(-5, 1300)).questions();
        assertThat(first).extracting(question -> question.value().hours()).containsExactlyInAnyOrder(91_100.0, 1300.0);

        var back = first.stream()
                .filter(question -> question.value().hours() == 1300)
                .findFirst()
                .orElseThrow();
        answer(back, PanelHoursAnswerKind.TYPING_ERROR, true, 1200.0).expect(200);
        assertThat(only(open()).kind()).isEqualTo(PanelHoursQuestionKind.CONTRADICTED);
        answer(only(open()), PanelHoursAnswerKind.TYPING_ERROR, false, null).expect(200);
        assertThat(open()).isEmpty();
        assertThat(hours()).containsExactly(1300.0, 1200.0, 1000.0);
    }

    @Test
    void whatIsRightReplacedOrResetIsNotAskedAboutAgain() {
        for (var kind : List.of(
                PanelHoursAnswerKind.RIGHT, PanelHoursAnswerKind.PANEL_REPLACED, PanelHoursAnswerKind.COUNTER_RESET)) {
            display();
            var question = only(enter(value(-30, 1000), value(-20, 40)).questions());
            answer(question, kind, false, null).expect(200);
            assertThat(enter(value(-10, 100), value(-5, 130)).questions()).isEmpty();
            assertThat(hours()).containsExactly(130.0, 100.0, 40.0, 1000.0);
        }
    }

    @Test
    void theSameValuesAgainChangeNothingAndOneBadValueKeepsAllOut() {
        var values = new PanelHoursList(List.of(value(-30, 1000), value(-20, 1100)));
        as(Role.CALIBRATOR).post("/panel-hours", values).expect(200);
        var again = as(Role.CALIBRATOR).post("/panel-hours", values).expect(200).as(PanelHoursEntered.class);
        assertThat(again.added()).isZero();
        assertThat(again.unchanged()).isEqualTo(2);

        var bad = new PanelHoursList(List.of(
                value(-10, 1200), value(3, 1300), new PanelHoursEntry(UUID.randomUUID(), clock.instant(), -1, null)));
        assertThat(as(Role.CALIBRATOR)
                        .post("/panel-hours", bad)
                        .expect(400)
                        .problem()
                        .errors())
                .extracting(error -> error.pointer())
                .containsExactlyInAnyOrder("/values/1/at", "/values/2/hours", "/values/2/displayId");
        assertThat(hours()).containsExactly(1100.0, 1000.0);
    }

    @Test
    void onlyATypingErrorHasACorrection() {
        var question = only(enter(value(-30, 1000), value(-20, 40)).questions());
        answer(question, PanelHoursAnswerKind.RIGHT, false, 3.0).expect(400);
        answer(question, PanelHoursAnswerKind.COUNTER_RESET, true, null).expect(400);
        as(Role.MANAGER)
                .post(
                        "/panel-hours-questions/" + question.id() + "/answer",
                        new PanelHoursAnswerDraft(PanelHoursAnswerKind.RIGHT, false, null, null))
                .expect(403);
        assertThat(open()).hasSize(1);
    }

    private PanelHoursEntry value(int days, double hours) {
        return new PanelHoursEntry(display.id(), at(days), hours, null);
    }

    private Instant at(int days) {
        return clock.instant().plus(Duration.ofDays(days));
    }

    private PanelHoursEntered enter(PanelHoursEntry... values) {
        return as(Role.CALIBRATOR)
                .post("/panel-hours", new PanelHoursList(List.of(values)))
                .expect(200)
                .as(PanelHoursEntered.class);
    }

    private Answer answer(PanelHoursQuestion question, PanelHoursAnswerKind kind, boolean before, Double corrected) {
        return as(Role.CALIBRATOR)
                .post(
                        "/panel-hours-questions/" + question.id() + "/answer",
                        new PanelHoursAnswerDraft(kind, before, corrected, null));
    }

    private static PanelHoursQuestion only(List<PanelHoursQuestion> questions) {
        assertThat(questions).hasSize(1);
        return questions.get(0);
    }

    private List<PanelHoursQuestion> open() {
        return engineer().all("/panel-hours-questions?display=" + display.id(), PanelHoursQuestion.class);
    }

    private List<Double> hours() {
        return engineer().all("/displays/" + display.id() + "/panel-hours", PanelHours.class).stream()
                .map(PanelHours::hours)
                .toList();
    }

    private RoomSheet sheet() {
        return engineer().get("/rooms/" + room + "/sheet").as(RoomSheet.class);
    }
}
