package panelbook.app.planning;

import static org.assertj.core.api.Assertions.assertThat;

import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.time.DayOfWeek;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.TemporalAdjusters;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.Executors;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.Answer;
import panelbook.app.testing.Http;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.AbsenceDraft;
import panelbook.wire.CalibratorDraft;
import panelbook.wire.DisplayDraft;
import panelbook.wire.HolidayDraft;
import panelbook.wire.Plan;
import panelbook.wire.PlanDraft;
import panelbook.wire.PlanEntry;
import panelbook.wire.PlanObstacle;
import panelbook.wire.Preset;
import panelbook.wire.PresetDraft;
import panelbook.wire.Purpose;
import panelbook.wire.Role;
import panelbook.wire.RoomDraft;
import panelbook.wire.TravelTimeDraft;
import panelbook.wire.TriedDays;
import panelbook.wire.Visit;
import panelbook.wire.VisitDraft;
import panelbook.wire.VisitDrop;
import panelbook.wire.VisitMove;
import panelbook.wire.VisitPin;
import panelbook.wire.VisitState;
import panelbook.wire.VisitWork;
import panelbook.wire.Weekday;
import panelbook.wire.Work;
import panelbook.wire.WorkingHours;

/** Plans and visits through the service's own door, round bookings, absences, holidays and what people decided. */
class PlanTest extends ServiceTest {

    private static final ZoneId LISBON = ZoneId.of("Europe/Lisbon");

    private Studio studio;
    private LocalDate monday;

    @BeforeEach
    void enter() {
        studio = new Studio(engineer(), unique("Plan"));
        monday = LocalDate.ofInstant(clock.instant(), LISBON).with(TemporalAdjusters.next(DayOfWeek.MONDAY));
    }

    @Test
    void aRoomIsVisitedOnceInWorkingHoursAfterItsWarmUpAndTheHeroComesFirst() {
        var follower = matchedFollower();
        calibrator("09:00", "17:00");
        var plan = propose(13);
        assertThat(plan.visits()).hasSize(1);
        var visit = plan.visits().get(0);
        assertThat(visit.state()).isEqualTo(VisitState.PROPOSED);
        assertThat(visit.work())
                .extracting(VisitWork::presetId, VisitWork::work)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(studio.hero(), Work.RECALIBRATION),
                        org.assertj.core.groups.Tuple.tuple(follower, Work.RECALIBRATION),
                        org.assertj.core.groups.Tuple.tuple(follower, Work.MATCH));
        assertThat(visit.work().get(2).why()).contains("its hero is recalibrated in this visit");
        assertThat(Duration.between(visit.warmUpFrom(), visit.startsAt()).toMinutes())
                .isGreaterThanOrEqualTo(30);
        withinHours(visit, "09:00", "17:00");
        assertThat(plan.gaps()).isEmpty();
        assertThat(plan.rest()).isEmpty();
        assertThat(plan.beyondDays()).isLessThan(plan.beyondDaysWithout());
        assertThat(plan.bound()).isLessThanOrEqualTo(plan.cost() + 1e-9);
        assertThat(engineer().get("/plans/" + plan.id()).as(Plan.class)).isEqualTo(plan);
        assertThat(engineer().all("/plans?facility=" + studio.facility(), PlanEntry.class))
                .extracting(PlanEntry::visits)
                .containsExactly(1);
    }

    @Test
    void aVisitNeverBeginsInABookedRoomAndItsWarmUpIsFreeToo() {
        calibrator("09:00", "17:00");
        // booked on the whole first week, but for Wednesday from noon to four
        book(monday, "00:00", monday.plusDays(2), "12:00");
        book(monday.plusDays(2), "16:00", monday.plusDays(13), "00:00");
        var visit = propose(monday, monday.plusDays(11)).visits().get(0);
        assertThat(local(visit.startsAt()).toLocalDate()).isEqualTo(monday.plusDays(2));
        assertThat(local(visit.warmUpFrom()).toLocalTime()).isAfterOrEqualTo(LocalTime.NOON);
        assertThat(local(visit.endsAt()).toLocalTime()).isBeforeOrEqualTo(LocalTime.of(16, 0));
    }

    @Test
    void absencesAndHolidaysAreDaysWithoutVisits() {
        var calibrator = calibrator("09:00", "17:00");
        var away = new AbsenceDraft(UUID.randomUUID(), monday, monday.plusDays(1), "course");
        engineer().post("/calibrators/" + calibrator + "/absences", away).expect(201);
        engineer()
                .post("/holidays", new HolidayDraft(UUID.randomUUID(), studio.facility(), monday.plusDays(2), "feast"))
                .expect(201);
        var visit = propose(monday, monday.plusDays(4)).visits().get(0);
        assertThat(local(visit.startsAt()).toLocalDate()).isEqualTo(monday.plusDays(3));
    }

    @Test
    void aVisitKeepsLocalHoursWhereTheClocksChange() {
        var change = LISBON.getRules().nextTransition(clock.instant());
        var sunday = LocalDate.ofInstant(change.getInstant(), LISBON);
        calibrator(List.of(new WorkingHours(Weekday.SUNDAY, "00:00", "24:00")));
        // free only in the one hour and a half that ends four hours after midnight by the wall clock
        book(sunday.minusDays(1), "00:00", sunday, "02:30");
        book(sunday, "05:00", sunday.plusDays(1), "00:00");
        var visit = propose(sunday, sunday).visits().get(0);
        assertThat(local(visit.warmUpFrom()).toLocalTime()).isAfterOrEqualTo(LocalTime.of(2, 30));
        assertThat(local(visit.endsAt()).toLocalTime()).isBeforeOrEqualTo(LocalTime.of(5, 0));
        assertThat(local(visit.startsAt()).toLocalDate()).isEqualTo(sunday);
    }

    @Test
    void whatNobodyCanDoIsNamedWithItsReason() {
        engineer()
                .post(
                        "/calibrators",
                        new CalibratorDraft(
                                UUID.randomUUID(),
                                unique("Lcd only"),
                                studio.facility(),
                                List.of("LCD"),
                                week("09:00", "17:00")))
                .expect(201);
        var plan = propose(6);
        assertThat(plan.visits()).isEmpty();
        assertThat(plan.gaps()).extracting(gap -> gap.obstacle()).containsExactly(PlanObstacle.NO_SKILL);
        assertThat(plan.rest()).singleElement().satisfies(rest -> {
            assertThat(rest.presetId()).isEqualTo(studio.hero());
            assertThat(rest.why()).isEqualTo("No visit: No calibrator who could come calibrates oled.");
        });
        calibrator("09:00", "09:40");
        assertThat(propose(6).gaps()).extracting(gap -> gap.obstacle()).containsExactly(PlanObstacle.TOO_LONG);
        book(monday.minusDays(7), "00:00", monday.plusDays(30), "00:00");
        assertThat(propose(6).gaps()).extracting(gap -> gap.obstacle()).containsExactly(PlanObstacle.NO_FREE_HOURS);
    }

    @Test
    void aCalibratorOfAnotherFacilityTravelsWithinWorkingHours() {
        var far = new Studio(engineer(), unique("Home"));
        calibrator(far.facility(), week("09:00", "13:00"));
        assertThat(propose(6).visits()).isEmpty();
        engineer()
                .put("/travel-times/" + far.facility() + "/" + studio.facility(), new TravelTimeDraft(60), "\"0\"")
                .expect(200);
        var visit = propose(6).visits().get(0);
        withinHours(visit, "10:00", "12:00");
    }

    @Test
    void workTooLongForADayIsCutToTheHeroAndTheGravestAndTheRestIsSaid() {
        matchedFollower();
        calibrator("09:00", "10:00");
        var plan = propose(13);
        assertThat(plan.visits().get(0).work()).extracting(VisitWork::presetId).containsExactly(studio.hero());
        assertThat(plan.rest())
                .singleElement()
                .satisfies(rest -> assertThat(rest.why())
                        .isEqualTo("Its work does not go into the same visit: left for another one."));
    }

    @Test
    void aNewPlanMovesNothingThatNeedNotMoveAndNothingThatAPersonFixed() {
        calibrator("09:00", "17:00");
        var first = propose(13).visits().get(0);
        var again = propose(13);
        assertThat(again.moves()).isEmpty();
        assertThat(again.visits()).containsExactly(first);
        var day = monday.plusDays(3).atTime(14, 0).atZone(LISBON).toInstant();
        var moved = post(first, "/move", new VisitMove(day, null, null, false), first.version())
                .expect(200)
                .as(Visit.class);
        assertThat(moved.pinned()).isTrue();
        var later = propose(13);
        assertThat(later.visits()).extracting(Visit::startsAt).containsExactly(day);
        var free = post(moved, "/pin", new VisitPin(false), moved.version()).as(Visit.class);
        assertThat(free.pinned()).isFalse();
        // now that the room is booked there, it has to go, and the plan says from where to where
        book(monday.plusDays(3), "12:00", monday.plusDays(3), "18:00");
        var replanned = propose(13);
        assertThat(replanned.moves()).singleElement().satisfies(move -> {
            assertThat(move.visitId()).isEqualTo(first.id());
            assertThat(move.fromStart()).isEqualTo(day);
            assertThat(move.toStart()).isNotNull().isNotEqualTo(day);
        });
        assertThat(replanned.visits()).extracting(Visit::id).containsExactly(first.id());
    }

    @Test
    void aProposalThatIsNeededNoMoreIsDropped() {
        calibrator("09:00", "17:00");
        var visit = propose(13).visits().get(0);
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant().minusSeconds(60), Studio.asAimed()));
        var plan = propose(13);
        assertThat(plan.visits()).isEmpty();
        assertThat(plan.moves())
                .singleElement()
                .satisfies(move -> assertThat(move.toStart()).isNull());
        assertThat(engineer().get("/visits/" + visit.id()).as(Visit.class).state())
                .isEqualTo(VisitState.DROPPED);
    }

    @Test
    void theSamePlanSentAgainIsTheSamePlan() {
        calibrator("09:00", "17:00");
        var draft = draft(monday, monday.plusDays(5), false, null);
        var plan = engineer().post("/plans", draft).expect(201).as(Plan.class);
        assertThat(engineer().post("/plans", draft).expect(200).as(Plan.class)).isEqualTo(plan);
        var other = new PlanDraft(draft.id(), studio.facility(), monday, monday.plusDays(6), false, null);
        engineer().post("/plans", other).expect(409);
    }

    @Test
    void twoEngineersWhoPlanAtOnceTakeTurns() throws Exception {
        calibrator("09:00", "17:00");
        for (var room = 0; room < 3; room++) {
            room();
        }
        var draft = draft(monday, monday.plusDays(5), false, null);
        Callable<Integer> plan = () -> engineer()
                .post("/plans", draft(monday, monday.plusDays(5), false, null))
                .status();
        Callable<Integer> same = () -> engineer().post("/plans", draft).status();
        var threads = Executors.newFixedThreadPool(4);
        try {
            var statuses = threads.invokeAll(List.of(plan, same, plan, same)).stream()
                    .map(future -> {
                        try {
                            return future.get();
                        } catch (Exception failed) {
                            throw new AssertionError(failed);
                        }
                    })
                    .toList();
            assertThat(statuses).allMatch(status -> status == 200 || status == 201);
        } finally {
            threads.shutdown();
        }
        var visits = visits("&state=proposed");
        assertThat(visits).hasSize(4);
        assertThat(visits).extracting(Visit::roomId).doesNotHaveDuplicates();
    }

    @Test
    void aClashIsNamedAndAPersonMayInsistWithAReason() {
        var calibrator = calibrator("09:00", "17:00");
        book(monday, "10:00", monday, "12:00");
        var at = monday.atTime(11, 0).atZone(LISBON).toInstant();
        var refused = engineer()
                .post("/visits", visitDraft(calibrator, at, null, false))
                .expect(409)
                .problem()
                .detail();
        assertThat(refused)
                .contains("is booked from " + monday + " 10:00 to " + monday + " 12:00.")
                .contains("insist and give a reason");
        engineer().post("/visits", visitDraft(calibrator, at, null, true)).expect(400);
        var draft = visitDraft(calibrator, at, "the client agreed", true);
        var visit = engineer().post("/visits", draft).expect(201).as(Visit.class);
        engineer().post("/visits", draft).expect(200);
        assertThat(visit.state()).isEqualTo(VisitState.CONFIRMED);
        assertThat(visit.remarks()).singleElement().asString().contains("is booked");
        var evening = monday.atTime(18, 0).atZone(LISBON).toInstant();
        assertThat(engineer()
                        .post("/visits", visitDraft(calibrator, evening, null, false))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("outside the working hours");
        var overlapping = visitDraft(calibrator, at.plusSeconds(600), "I want it", true);
        assertThat(engineer().post("/visits", overlapping).expect(409).problem().detail())
                .contains("There is a confirmed visit of")
                .contains(visit.id().toString());
    }

    @Test
    void aVisitByHandTakesTheFollowersOfItsHeroAlong() {
        var follower = matchedFollower();
        var calibrator = calibrator("09:00", "17:00");
        var draft = new VisitDraft(
                UUID.randomUUID(),
                studio.room(),
                calibrator,
                monday.atTime(10, 0).atZone(LISBON).toInstant(),
                List.of(studio.hero()),
                null,
                null,
                false);
        var visit = engineer().post("/visits", draft).expect(201).as(Visit.class);
        assertThat(visit.work())
                .extracting(VisitWork::presetId, VisitWork::work)
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple(studio.hero(), Work.RECALIBRATION),
                        org.assertj.core.groups.Tuple.tuple(follower, Work.MATCH));
    }

    @Test
    void aCalibratorConfirmsAndMovesOwnVisitsOnly() {
        var name = unique("Calibrator");
        engineer()
                .post(
                        "/calibrators",
                        new CalibratorDraft(
                                UUID.randomUUID(), name, studio.facility(), List.of(), week("09:00", "17:00")))
                .expect(201);
        var visit = propose(13).visits().get(0);
        var own = nobody().with(newToken(Role.CALIBRATOR, name).secret());
        assertThat(post(as(Role.CALIBRATOR), visit, "/confirmation", null, visit.version())
                        .expect(403)
                        .problem()
                        .detail())
                .contains("It is a visit of " + name);
        var confirmed = post(own, visit, "/confirmation", null, visit.version())
                .expect(200)
                .as(Visit.class);
        assertThat(confirmed.state()).isEqualTo(VisitState.CONFIRMED);
        post(own, visit, "/drop", new VisitDrop("ill"), visit.version()).expect(412);
        own.send("POST", "/visits/" + visit.id() + "/drop", "{\"reason\":\"ill\"}", List.of())
                .expect(428);
        assertThat(post(own, visit, "/done", null, confirmed.version())
                        .expect(409)
                        .problem()
                        .detail())
                .contains("begins only at");
        post(own, visit, "/drop", new VisitDrop("ill"), confirmed.version()).expect(200);
        post(own, visit, "/confirmation", null, confirmed.version() + 1).expect(409);
    }

    @Test
    void aVisitIsDoneOnceItsAsLeftRunsAndSignOffsAreIn() {
        var calibrator = calibrator("00:00", "24:00");
        var at = clock.instant().plus(Duration.ofHours(2));
        var draft = visitDraft(calibrator, at, "any time", true);
        var visit = engineer().post("/visits", draft).expect(201).as(Visit.class);
        clock.advance(Duration.ofHours(3));
        assertThat(engineer().get("/visits/" + visit.id()).as(Visit.class).state())
                .isEqualTo(VisitState.CONFIRMED);
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), Studio.asAimed()));
        assertThat(engineer().get("/visits/" + visit.id()).as(Visit.class).state())
                .isEqualTo(VisitState.DONE);
        assertThat(visits("&state=confirmed")).isEmpty();
        // it was planned to last longer, and its hours are free for another now
        var another = new VisitDraft(
                UUID.randomUUID(),
                studio.room(),
                calibrator,
                visit.endsAt().minus(Duration.ofMinutes(10)),
                List.of(studio.hero()),
                null,
                "a second look",
                true);
        engineer().post("/visits", another).expect(201);
    }

    @Test
    void whatPeopleDecideWhileAPlanIsMadeStays() throws Exception {
        calibrator("09:00", "17:00");
        for (var more = 0; more < 3; more++) {
            room();
        }
        propose(13);
        var threads = Executors.newFixedThreadPool(3);
        try {
            var decided = new ArrayList<Visit>();
            for (var visit : visits("&state=proposed")) {
                Callable<Integer> plan = () -> engineer()
                        .post("/plans", draft(monday, monday.plusDays(13), false, null))
                        .status();
                var plans = List.of(threads.submit(plan), threads.submit(plan));
                decided.add(post(visit, "/confirmation", null, visit.version())
                        .expect(200)
                        .as(Visit.class));
                for (var made : plans) {
                    assertThat(made.get()).isEqualTo(201);
                }
            }
            assertThat(visits("&state=confirmed"))
                    .extracting(Visit::id, Visit::startsAt)
                    .containsExactlyInAnyOrderElementsOf(decided.stream()
                            .map(visit -> org.assertj.core.groups.Tuple.tuple(visit.id(), visit.startsAt()))
                            .toList());
            assertThat(visits("&state=proposed")).isEmpty();
        } finally {
            threads.shutdown();
        }
    }

    @Test
    void aDryRunProposesNothingAndSaysHowManyDaysKeepEverythingWithinTolerance() {
        // time for one room a day
        calibrator("09:00", "10:00");
        room();
        room();
        var all = look(null);
        assertThat(all.visits()).hasSize(3);
        assertThat(all.bound()).isNotNull();
        var needed = all.neededDays();
        assertThat(needed).isNotNull();
        assertThat(needed.there()).isEqualTo(10);
        assertThat(needed.enough()).isEqualTo(3);
        assertThat(needed.atLeast()).isEqualTo(3);
        assertThat(needed.tried()).contains(new TriedDays(2, 1), new TriedDays(3, 0));
        assertThat(needed.asked()).isNull();
        var one = look(1);
        assertThat(one.visits()).hasSize(1);
        assertThat(one.visits().get(0).calibrator()).isEqualTo("somebody 1");
        assertThat(one.rest()).hasSize(2);
        assertThat(one.gaps()).extracting(gap -> gap.obstacle()).containsOnly(PlanObstacle.DAYS_ARE_FULL);
        assertThat(one.neededDays().asked().days()).isEqualTo(1);
        assertThat(one.neededDays().asked().lateRooms()).hasSize(2);
        assertThat(one.neededDays().enough()).isEqualTo(3);
        assertThat(look(0).visits()).isEmpty();
        assertThat(visits("")).isEmpty();
    }

    @Test
    void aDryRunSaysThatMoreDaysAreNeededThanTheCalibratorsWork() {
        // one day of one hour in the two weeks, and three rooms of one hour
        calibrator(List.of(new WorkingHours(Weekday.WEDNESDAY, "09:00", "10:00")));
        room();
        room();
        room();
        room();
        var needed = look(null).neededDays();
        assertThat(needed.there()).isEqualTo(2);
        assertThat(needed.enough())
                .as("two at once on each of two days, and a fifth")
                .isEqualTo(5);
        var five = look(5);
        assertThat(five.visits())
                .extracting(Visit::room)
                .doesNotHaveDuplicates()
                .hasSize(5);
        assertThat(five.visits()).extracting(Visit::calibrator).contains("somebody 1", "somebody 2", "somebody 3");
        assertThat(five.neededDays().asked().lateRooms()).isEmpty();
    }

    @Test
    void howManyDaysAreNeededIsNotAskedWhereNobodyWorks() {
        assertThat(look(null).neededDays()).isNull();
        assertThat(refused(draft(monday, monday.plusDays(13), true, 4)))
                .contains("/calibratorDays", "Nobody works within the plan");
    }

    @Test
    void whatARoomIsBookedForIsNotToldWithAVisit() {
        var calibrator = calibrator("09:00", "17:00");
        book(monday, "10:00", monday, "12:00");
        var at = monday.atTime(10, 30).atZone(LISBON).toInstant();
        assertThat(engineer()
                        .post("/visits", visitDraft(calibrator, at, null, false))
                        .expect(409)
                        .problem()
                        .detail())
                .contains("10:00", "12:00")
                .doesNotContain("colour session");
        engineer()
                .post("/visits", visitDraft(calibrator, at, "agreed with the room", true))
                .expect(201);
        propose(13);
        assertThat(as(Role.MANAGER).all("/visits?facility=" + studio.facility(), Visit.class))
                .singleElement()
                .satisfies(visit -> assertThat(visit.remarks())
                        .anyMatch(remark -> remark.contains("is booked from"))
                        .noneMatch(remark -> remark.contains("colour session")));
    }

    @Test
    void badPlansAreRefusedPlainly() {
        assertThat(refused(new PlanDraft(UUID.randomUUID(), UUID.randomUUID(), null, monday, false, null)))
                .contains("There is no facility");
        assertThat(refused(draft(monday, monday.minusDays(1), false, null))).contains("/until");
        assertThat(refused(draft(monday.minusDays(30), monday, false, null))).contains("/from", "before today");
        assertThat(refused(draft(monday, monday.plusDays(400), false, null))).contains("at most 200 days");
        assertThat(refused(draft(monday, monday, false, 3))).contains("/calibratorDays");
        assertThat(refused(draft(monday, monday, true, -1))).contains("/calibratorDays");
        assertThat(refused(draft(monday, monday, true, 1001))).contains("/calibratorDays", "0 to 1000");
        var visit = new VisitDraft(
                UUID.randomUUID(),
                studio.room(),
                UUID.randomUUID(),
                clock.instant().minus(Duration.ofDays(9)),
                List.of(UUID.randomUUID()),
                0,
                null,
                false);
        assertThat(engineer().post("/visits", visit).expect(400).problem().errors())
                .extracting(error -> error.pointer())
                .contains("/calibratorId", "/startsAt", "/presetIds/0", "/minutes");
        engineer().get("/visits/" + UUID.randomUUID()).expect(404);
        engineer().get("/plans/" + UUID.randomUUID()).expect(404);
    }

    private UUID matchedFollower() {
        var start = clock.instant().minus(Duration.ofDays(100));
        var follower = studio.display("Client", "lcd");
        var heroRun = studio.run(studio.hero(), Purpose.AS_LEFT, start, Studio.asAimed());
        var followerRun = studio.run(follower, Purpose.AS_LEFT, start, Studio.asAimed());
        studio.upload(heroRun);
        studio.upload(followerRun);
        studio.signOff(follower, "operator A", followerRun, heroRun);
        return follower;
    }

    /** Another room of the studio's facility, with a display that was never calibrated. */
    private void room() {
        var room = new RoomDraft(UUID.randomUUID(), studio.facility(), unique("Grading"), null);
        engineer().post("/rooms", room).expect(201);
        var display = new DisplayDraft(
                UUID.randomUUID(), studio.facility(), room.id(), unique("Main"), "model oled", "oled", null, null);
        engineer().post("/displays", display).expect(201);
        engineer()
                .post("/presets", new PresetDraft(UUID.randomUUID(), display.id(), "User 1", studio.target()))
                .expect(201)
                .as(Preset.class);
    }

    private Plan propose(int days) {
        return propose(monday, monday.plusDays(days));
    }

    private Plan propose(LocalDate from, LocalDate until) {
        return engineer()
                .post("/plans", draft(from, until, false, null))
                .expect(201)
                .as(Plan.class);
    }

    private Plan look(@Nullable Integer calibratorDays) {
        return engineer()
                .post("/plans", draft(monday, monday.plusDays(13), true, calibratorDays))
                .expect(200)
                .as(Plan.class);
    }

    private PlanDraft draft(LocalDate from, LocalDate until, boolean dryRun, @Nullable Integer calibratorDays) {
        return new PlanDraft(UUID.randomUUID(), studio.facility(), from, until, dryRun, calibratorDays);
    }

    private String refused(PlanDraft draft) {
        return engineer().post("/plans", draft).expect(400).problem().detail();
    }

    private VisitDraft visitDraft(UUID calibrator, Instant at, @Nullable String reason, boolean insist) {
        return new VisitDraft(UUID.randomUUID(), studio.room(), calibrator, at, List.of(), null, reason, insist);
    }

    private Answer post(Visit visit, String what, Object body, long version) {
        return post(engineer(), visit, what, body, version);
    }

    private static Answer post(Http http, Visit visit, String what, @Nullable Object body, long version) {
        return http.post("/visits/" + visit.id() + what, body, "\"" + version + "\"");
    }

    private List<Visit> visits(String query) {
        return engineer().all("/visits?facility=" + studio.facility() + query, Visit.class);
    }

    private UUID calibrator(String from, String until) {
        return calibrator(week(from, until));
    }

    private UUID calibrator(List<WorkingHours> week) {
        return calibrator(studio.facility(), week);
    }

    private UUID calibrator(UUID home, List<WorkingHours> week) {
        var draft = new CalibratorDraft(UUID.randomUUID(), unique("Calibrator"), home, List.of(), week);
        engineer().post("/calibrators", draft).expect(201);
        return draft.id();
    }

    private static List<WorkingHours> week(String from, String until) {
        return Arrays.stream(Weekday.values())
                .filter(day -> day.compareTo(Weekday.SATURDAY) < 0 || from.equals("00:00"))
                .map(day -> new WorkingHours(day, from, until))
                .toList();
    }

    private void withinHours(Visit visit, String from, String until) {
        assertThat(local(visit.startsAt()).toLocalTime()).isAfterOrEqualTo(LocalTime.parse(from));
        assertThat(local(visit.endsAt()).toLocalTime()).isBeforeOrEqualTo(LocalTime.parse(until));
        assertThat(local(visit.startsAt()).getDayOfWeek()).isNotIn(DayOfWeek.SATURDAY, DayOfWeek.SUNDAY);
    }

    private static OffsetDateTime local(Instant at) {
        return at.atZone(LISBON).toOffsetDateTime();
    }

    private void book(LocalDate fromDay, String from, LocalDate toDay, String to) {
        book(
                fromDay.atTime(LocalTime.parse(from)).atZone(LISBON).toInstant(),
                toDay.atTime(LocalTime.parse(to)).atZone(LISBON).toInstant());
    }

    private void book(Instant from, Instant to) {
        var source = UUID.randomUUID();
        try (Connection connection =
                        DriverManager.getConnection(DATABASE.jdbcUrl(), DATABASE.username(), DATABASE.password());
                var room =
                        connection.prepareStatement("insert into booking_source (id, room_id, name) values (?, ?, ?)");
                var booking = connection.prepareStatement(
                        "insert into booking (source_id, uid, starts_at, ends_at, title) values (?, ?, ?, ?, ?)")) {
            room.setObject(1, source);
            room.setObject(2, studio.room());
            room.setString(3, unique("calendar"));
            room.executeUpdate();
            booking.setObject(1, source);
            booking.setString(2, UUID.randomUUID().toString());
            booking.setObject(3, from.atOffset(ZoneOffset.UTC));
            booking.setObject(4, to.atOffset(ZoneOffset.UTC));
            booking.setString(5, "colour session");
            booking.executeUpdate();
        } catch (SQLException failed) {
            throw new AssertionError(failed);
        }
    }
}
