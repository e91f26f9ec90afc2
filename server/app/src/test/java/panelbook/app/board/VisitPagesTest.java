package panelbook.app.board;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.temporal.TemporalAdjusters;
import java.util.List;
import java.util.UUID;
import java.util.stream.Stream;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.CalibratorDraft;
import panelbook.wire.Plan;
import panelbook.wire.PlanDraft;
import panelbook.wire.Role;
import panelbook.wire.Visit;
import panelbook.wire.VisitState;
import panelbook.wire.Weekday;
import panelbook.wire.WorkingHours;

/** The week of visits, and what engineers do with one. */
class VisitPagesTest extends ServiceTest {

    private static final ZoneId LISBON = ZoneId.of("Europe/Lisbon");

    private Studio studio;
    private String calibrator;
    private Visit visit;

    @BeforeEach
    void aProposedVisit() {
        studio = new Studio(engineer(), unique("Plan pages"));
        calibrator = unique("Calibrator");
        var hours = Stream.of(Weekday.MONDAY, Weekday.TUESDAY, Weekday.WEDNESDAY, Weekday.THURSDAY, Weekday.FRIDAY)
                .map(day -> new WorkingHours(day, "09:00", "17:00"))
                .toList();
        engineer()
                .post(
                        "/calibrators",
                        new CalibratorDraft(UUID.randomUUID(), calibrator, studio.facility(), List.of(), hours))
                .expect(201);
        var monday = LocalDate.ofInstant(clock.instant(), LISBON).with(TemporalAdjusters.next(DayOfWeek.MONDAY));
        visit = engineer()
                .post(
                        "/plans",
                        new PlanDraft(UUID.randomUUID(), studio.facility(), monday, monday.plusDays(4), false, null))
                .expect(201)
                .as(Plan.class)
                .visits()
                .get(0);
    }

    @Test
    void theWeekShowsTheVisitUnderItsCalibratorAndAManagerCannotTouchIt() {
        var day = LocalDate.ofInstant(visit.startsAt(), LISBON);
        var path = "/board/visits/" + visit.id();
        var week = page(Role.MANAGER, "/board/plan?week=" + day + "&facility=" + studio.facility());
        var row = week.select("table tbody tr:has(th:contains(" + calibrator + "))");
        assertThat(row.select("td").get(day.getDayOfWeek().getValue() - 1).text())
                .contains(
                        "proposed",
                        LocalTime.ofInstant(visit.startsAt(), LISBON).toString(),
                        "Grading 1");
        assertThat(row.select("a").attr("href")).isEqualTo(path);

        assertThat(page(Role.MANAGER, path).select("main form[method=post]")).isEmpty();
        as(Role.MANAGER).form(path + "/confirmation", "version", "1").expect(403);
        as(Role.MANAGER).form(path + "/move", "version", "1").expect(403);
        as(Role.CALIBRATOR).form(path + "/confirmation", "version", version()).expect(403);
        assertThat(get().state()).isEqualTo(VisitState.PROPOSED);
        engineer().form(path + "/confirmation", "version", version()).expect(302);
        assertThat(get().state()).isEqualTo(VisitState.CONFIRMED);
        engineer().form(path + "/confirmation", "version", "1").expect(412);
    }

    @Test
    void aMoveThatClashesIsToldInWordsAndKeepsWhatWasTypedUntilSomebodyInsists() {
        var path = "/board/visits/" + visit.id();
        var sunday = LocalDate.ofInstant(visit.startsAt(), LISBON).with(TemporalAdjusters.next(DayOfWeek.SUNDAY));
        var form = new String[] {
            "version",
            version(),
            "day",
            sunday.toString(),
            "time",
            "10:30",
            "calibrator",
            visit.calibratorId().toString(),
            "reason",
            "the only \"quiet\" day"
        };
        var clash =
                Jsoup.parse(engineer().form(path + "/move", form).expect(409).text());
        assertThat(clash.select("#move-wrong").text())
                .contains("It clashes: It is outside the working hours of " + calibrator);
        assertThat(clash.select("input[name=day]").attr("value")).isEqualTo(sunday.toString());
        assertThat(clash.select("input[name=time]").attr("value")).isEqualTo("10:30");
        assertThat(clash.select("input[name=reason]").attr("value")).isEqualTo("the only \"quiet\" day");
        assertThat(get()).as("nothing was changed").isEqualTo(visit);
        var unreadable = Jsoup.parse(engineer()
                .form(path + "/move", "version", version(), "day", "some day", "time", "10:30")
                .expect(400)
                .text());
        assertThat(unreadable.select("input[name=day]").attr("value")).isEqualTo("some day");

        var insisting =
                Stream.concat(Stream.of(form), Stream.of("insist", "true")).toArray(String[]::new);
        engineer().form(path + "/move", insisting).expect(302);
        assertThat(get().startsAt())
                .isEqualTo(sunday.atTime(10, 30).atZone(LISBON).toInstant());
        assertThat(page(Role.MANAGER, path).text()).contains("10:30", "the only \"quiet\" day", "pinned");
    }

    private Visit get() {
        return engineer().get("/visits/" + visit.id()).as(Visit.class);
    }

    private String version() {
        return String.valueOf(get().version());
    }

    private Document page(Role role, String path) {
        return Jsoup.parse(as(role).get(path).expect(200).text());
    }
}
