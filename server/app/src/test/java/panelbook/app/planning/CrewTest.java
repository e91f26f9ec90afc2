package panelbook.app.planning;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Absence;
import panelbook.wire.AbsenceDraft;
import panelbook.wire.Calibrator;
import panelbook.wire.CalibratorDraft;
import panelbook.wire.DisplayDraft;
import panelbook.wire.DurationSource;
import panelbook.wire.Holiday;
import panelbook.wire.HolidayDraft;
import panelbook.wire.PresetDraft;
import panelbook.wire.Purpose;
import panelbook.wire.Retirement;
import panelbook.wire.RoomPlanning;
import panelbook.wire.RoomPlanningDraft;
import panelbook.wire.TravelTime;
import panelbook.wire.TravelTimeDraft;
import panelbook.wire.Weekday;
import panelbook.wire.Work;
import panelbook.wire.WorkDuration;
import panelbook.wire.WorkDurationDraft;
import panelbook.wire.WorkingHours;

/** Who makes visits and what else a plan rests on, through the service's own door. */
class CrewTest extends ServiceTest {

    private Studio studio;

    @BeforeEach
    void enter() {
        studio = new Studio(engineer(), unique("Crew"));
    }

    @Test
    void aCalibratorIsAddedOnceEditedByVersionAndRetired() {
        var draft = draft(List.of(new WorkingHours(Weekday.MONDAY, "09:00", "17:30")));
        var added = engineer().post("/calibrators", draft).expect(201).as(Calibrator.class);
        engineer().post("/calibrators", draft).expect(200);
        assertThat(added.homeFacility()).isEqualTo(studio.name());
        assertThat(added.timeZone()).isEqualTo("Europe/Lisbon");
        var longer = new CalibratorDraft(
                draft.id(),
                draft.name(),
                draft.homeFacilityId(),
                List.of("oled"),
                List.of(new WorkingHours(Weekday.MONDAY, "08:00", "24:00")));
        var path = "/calibrators/" + draft.id();
        var etag = engineer().get(path).expect(200).etag();
        assertThat(engineer()
                        .put(path, longer, etag)
                        .expect(200)
                        .as(Calibrator.class)
                        .skills())
                .containsExactly("oled");
        engineer().put(path, draft, etag).expect(412);
        engineer().put(path, draft, null).expect(428);
        assertThat(engineer()
                        .post(path + "/retirement", new Retirement("moved on"))
                        .as(Calibrator.class)
                        .retiredAt())
                .isNotNull();
        engineer().put(path, draft, "\"2\"").expect(409);
        assertThat(engineer().all("/calibrators?facility=" + studio.facility(), Calibrator.class))
                .isEmpty();
        var twin = new CalibratorDraft(UUID.randomUUID(), draft.name(), studio.facility(), List.of(), List.of());
        assertThat(engineer().post("/calibrators", twin).expect(409).problem().detail())
                .contains("calibrator of this name");
    }

    @Test
    void workingHoursThatCannotBeAreRefusedWithTheirPlaces() {
        assertThat(errors(new WorkingHours(Weekday.MONDAY, "9:00", "25:00")))
                .containsExactly("/week/0/from", "/week/0/until");
        assertThat(errors(new WorkingHours(Weekday.MONDAY, "17:00", "09:00"))).containsExactly("/week/0/until");
        assertThat(errors(
                        new WorkingHours(Weekday.MONDAY, "09:00", "12:00"),
                        new WorkingHours(Weekday.TUESDAY, "11:00", "13:00"),
                        new WorkingHours(Weekday.MONDAY, "11:00", "13:00")))
                .containsExactly("/week/2");
    }

    @Test
    void absencesAndHolidaysAreNotedOnceAndTakenBack() {
        var calibrator = draft(List.of());
        engineer().post("/calibrators", calibrator).expect(201);
        var path = "/calibrators/" + calibrator.id() + "/absences";
        var away = new AbsenceDraft(
                UUID.randomUUID(), LocalDate.parse("2026-07-01"), LocalDate.parse("2026-07-14"), "summer");
        engineer().post(path, away).expect(201);
        engineer().post(path, away).expect(200);
        assertThat(engineer().get(path).asListOf(Absence.class))
                .extracting(Absence::reason)
                .containsExactly("summer");
        engineer().post("/absences/" + away.id() + "/cancellation").expect(200);
        assertThat(engineer().get(path).asListOf(Absence.class)).isEmpty();
        assertThat(engineer().get(path + "?cancelled=true").asListOf(Absence.class))
                .hasSize(1);
        var backwards =
                new AbsenceDraft(UUID.randomUUID(), LocalDate.parse("2026-07-14"), LocalDate.parse("2026-07-01"), null);
        assertThat(engineer().post(path, backwards).expect(400).problem().detail())
                .contains("/toDay");

        var holiday =
                new HolidayDraft(UUID.randomUUID(), studio.facility(), LocalDate.parse("2026-06-24"), "house day");
        engineer().post("/holidays", holiday).expect(201);
        engineer().post("/holidays", holiday).expect(200);
        var list = "/holidays?facility=" + studio.facility();
        assertThat(engineer().get(list).asListOf(Holiday.class))
                .extracting(Holiday::facility)
                .contains(studio.name());
        engineer().post("/holidays/" + holiday.id() + "/cancellation").expect(200);
        assertThat(engineer().get(list).asListOf(Holiday.class))
                .noneMatch(one -> one.id().equals(holiday.id()));
    }

    @Test
    void figuresThatNobodySaidYetAreVersionZeroAndMayBeTakenBack() {
        var far = new Studio(engineer(), unique("Far"));
        var path = "/travel-times/" + far.facility() + "/" + studio.facility();
        assertThat(engineer()
                        .put(path, new TravelTimeDraft(40), "\"0\"")
                        .expect(200)
                        .as(TravelTime.class)
                        .minutes())
                .isEqualTo(40);
        var back = "/travel-times/" + studio.facility() + "/" + far.facility();
        engineer().put(back, new TravelTimeDraft(50), "\"0\"").expect(412);
        assertThat(engineer()
                        .put(back, new TravelTimeDraft(50), "\"1\"")
                        .as(TravelTime.class)
                        .version())
                .isEqualTo(2);
        assertThat(engineer()
                        .put(back, new TravelTimeDraft(null), "\"2\"")
                        .as(TravelTime.class)
                        .minutes())
                .isNull();

        var room = "/rooms/" + studio.room() + "/planning";
        assertThat(engineer().get(room).as(RoomPlanning.class).importance()).isEqualTo(1);
        engineer()
                .put(room, new RoomPlanningDraft(7), engineer().get(room).etag())
                .expect(200);
        assertThat(engineer().get(room).as(RoomPlanning.class).importance()).isEqualTo(7);
        engineer().put(room, new RoomPlanningDraft(8), "\"0\"").expect(412);
        engineer().put(room, new RoomPlanningDraft(11), "\"1\"").expect(400);

        var model = unique("Model");
        var told = put(new WorkDurationDraft(model, Work.MATCH, 25), 0);
        assertThat(told.source()).isEqualTo(DurationSource.MODEL);
        assertThat(put(new WorkDurationDraft(model, Work.MATCH, null), told.version())
                        .source())
                .isIn(DurationSource.HOUSE, DurationSource.COMMON_PRACTICE);
    }

    @Test
    void howLongARecalibrationTakesIsLearnedFromThreeVisitsOn() {
        var model = unique("Model");
        var preset = display(model);
        var start = clock.instant().minus(Duration.ofDays(300));
        visit(preset, start, 40);
        visit(preset, start.plus(Duration.ofDays(50)), 70);
        assertThat(recalibration(model).source()).isNotEqualTo(DurationSource.LEARNED);
        assertThat(recalibration(model).visits()).isEqualTo(2);
        // the next day is another visit
        studio.upload(studio.run(preset, Purpose.AS_FOUND, start.plus(Duration.ofDays(60)), Studio.dimmed(0.99)));
        studio.upload(studio.run(preset, Purpose.AS_LEFT, start.plus(Duration.ofDays(61)), Studio.asAimed()));
        assertThat(recalibration(model).visits()).isEqualTo(2);
        visit(preset, start.plus(Duration.ofDays(100)), 50);
        var learned = recalibration(model);
        assertThat(learned.source()).isEqualTo(DurationSource.LEARNED);
        assertThat(learned.minutes()).as("median of 40, 50 and 70").isEqualTo(50);
        put(new WorkDurationDraft(model, Work.RECALIBRATION, 65), 0);
        assertThat(recalibration(model).minutes())
                .as("what somebody said of the model holds")
                .isEqualTo(65);
        assertThat(recalibration(model).learnedMinutes()).isEqualTo(50);
    }

    private void visit(UUID preset, Instant from, int minutes) {
        studio.upload(studio.run(preset, Purpose.AS_FOUND, from, Studio.dimmed(0.99)));
        studio.upload(studio.run(preset, Purpose.AS_LEFT, from.plus(Duration.ofMinutes(minutes)), Studio.asAimed()));
    }

    private UUID display(String model) {
        var display = new DisplayDraft(
                UUID.randomUUID(), studio.facility(), studio.room(), unique("Display"), model, "oled", null, null);
        engineer().post("/displays", display).expect(201);
        var preset = new PresetDraft(UUID.randomUUID(), display.id(), "User 1", studio.target());
        engineer().post("/presets", preset).expect(201);
        return preset.id();
    }

    private WorkDuration recalibration(String model) {
        return engineer().get("/work-durations?model=" + model).asListOf(WorkDuration.class).stream()
                .filter(duration -> duration.work() == Work.RECALIBRATION)
                .findFirst()
                .orElseThrow();
    }

    private WorkDuration put(WorkDurationDraft draft, long version) {
        return engineer()
                .put("/work-durations", draft, "\"" + version + "\"")
                .expect(200)
                .as(WorkDuration.class);
    }

    private CalibratorDraft draft(List<WorkingHours> week) {
        return new CalibratorDraft(UUID.randomUUID(), unique("Calibrator"), studio.facility(), List.of(), week);
    }

    private List<String> errors(WorkingHours... week) {
        var problem = engineer()
                .post("/calibrators", draft(List.of(week)))
                .expect(400)
                .problem();
        return problem.errors().stream().map(error -> error.pointer()).toList();
    }
}
