package panelbook.app.board;

import static org.assertj.core.api.Assertions.assertThat;
import static panelbook.app.testing.Studio.asAimed;
import static panelbook.app.testing.Studio.dimmed;
import static panelbook.app.testing.Studio.tinted;

import java.io.StringReader;
import java.sql.SQLException;
import java.time.Duration;
import java.util.List;
import java.util.UUID;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.postgresql.PGConnection;
import panelbook.app.testing.Http;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.Alert;
import panelbook.wire.Purpose;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.Role;
import panelbook.wire.RoomDraft;
import panelbook.wire.Trim;

/** What people find on the pages of rooms, alerts, trims and what is due. */
class BoardTest extends ServiceTest {

    private static final String FORMS_THAT_CHANGE = "main form[method=post]";

    private Studio studio;

    @BeforeEach
    void aStudio() {
        studio = new Studio(engineer(), unique("House <b>&amp; Sons"));
        clock.advance(Duration.ofHours(1));
    }

    @Test
    void roomsReadFromTheWorstToTheBestWithTheReasonInWords() {
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed()));
        var bare = UUID.randomUUID();
        engineer()
                .post("/rooms", new RoomDraft(bare, studio.facility(), "Zoetrope", null))
                .expect(201);

        var page = page(as(Role.MANAGER), "/board/facilities/" + studio.facility());

        assertThat(page.select("table.rooms tbody tr").eachText())
                .as("not ready before ready, whatever the names")
                .satisfiesExactly(
                        worst -> assertThat(worst)
                                .startsWith("not ready Zoetrope")
                                .contains("No display with a preset stands here."),
                        best -> assertThat(best).startsWith("ready Grading 1"));
        assertThat(page.select("h1").text()).as("a name is never markup").isEqualTo(studio.name());
        assertThat(page.select("h1 b")).isEmpty();
        var ready = page(as(Role.MANAGER), "/board/facilities/" + studio.facility() + "?state=ready&text=GRAD&reason=");
        assertThat(ready.select("table.rooms tbody th").eachText()).containsExactly("Grading 1");
        assertThat(page(engineer(), "/board?facility=" + studio.facility() + "&reason=empty")
                        .select("table.rooms tbody th")
                        .eachText())
                .containsExactly("Zoetrope");
    }

    @Test
    void theReasonLeadsToTheRunThatShowsItInTwoClicks() {
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed()));
        clock.advance(Duration.ofHours(1));
        var check = studio.run(studio.hero(), Purpose.CHECK, clock.instant(), dimmed(0.8));
        studio.upload(check);

        var room = page(as(Role.MANAGER), "/board/rooms/" + studio.room());
        var reason = room.select("ol.reasons li").first();
        assertThat(reason).isNotNull();
        assertThat(reason.text()).startsWith("not ready Hero, User 1: It moved.");
        assertThat(hrefs(reason)).contains("/board/runs/" + check.id());
        var alert = page(as(Role.MANAGER), only(hrefs(reason), "/board/alerts/"));
        assertThat(hrefs(alert.body())).contains("/board/runs/" + check.id(), "/board/rooms/" + studio.room());
        assertThat(alert.select(FORMS_THAT_CHANGE)).as("a manager reads only").isEmpty();
    }

    @Test
    void alertsAreTakenInHandByThoseWhoMayAndWhatWasTypedIsNeverLost() {
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed()));
        clock.advance(Duration.ofHours(1));
        studio.upload(studio.run(studio.hero(), Purpose.CHECK, clock.instant(), dimmed(0.8)));
        var alert = engineer().all("/alerts?room=" + studio.room(), Alert.class).get(0);
        var path = "/board/alerts/" + alert.id();

        as(Role.MANAGER).form(path + "/acknowledgement", "note", "mine").expect(403);
        as(Role.MANAGER).form(path + "/closure", "reason", "mine").expect(403);
        assertThat(page(as(Role.CALIBRATOR), path).select(FORMS_THAT_CHANGE)).hasSize(2);
        var empty = Jsoup.parse(engineer()
                .form(path + "/acknowledgement", "note", " ")
                .expect(400)
                .text());
        assertThat(empty.select("#note-wrong").text())
                .isEqualTo("Must not be empty: say it in words, for those who come after.");
        assertThat(empty.select("#note").attr("aria-describedby")).isEqualTo("note-wrong");

        var done = as(Role.CALIBRATOR)
                .form(path + "/acknowledgement", "note", "Ordered <a panel>.")
                .expect(302);
        assertThat(done.header("Location")).endsWith(path);
        var taken = page(engineer(), path);
        assertThat(taken.select("h1 + p b").text()).isEqualTo("acknowledged");
        assertThat(taken.text()).contains("Ordered <a panel>.");
        engineer().form(path + "/closure", "reason", "measured by mistake").expect(302);
        var late = Jsoup.parse(engineer()
                .form(path + "/closure", "reason", "I was slower")
                .expect(409)
                .text());
        assertThat(late.select("#reason").text()).isEqualTo("I was slower");
        assertThat(late.select("#reason-wrong").text()).isNotEmpty();
        assertThat(engineer().get("/alerts/" + alert.id()).as(Alert.class).history())
                .as("what was refused changed nothing")
                .hasSize(3);
    }

    @Test
    void alertsStandInTheOrderInWhichPeopleShouldLook() {
        var follower = studio.display("Follower", "lcd");
        studio.upload(studio.run(follower, Purpose.AS_LEFT, clock.instant(), asAimed()));
        clock.advance(Duration.ofHours(1));
        studio.upload(studio.run(follower, Purpose.CHECK, clock.instant(), dimmed(0.8)));
        var list = "/board/alerts?facility=" + studio.facility();

        var rows =
                page(as(Role.MANAGER), list + "&room=grad&cause=moved&state=").select("tbody tr");
        assertThat(rows.eachText()).singleElement().asString().contains("open", "Follower/User 1", "It moved.");
        assertThat(page(as(Role.MANAGER), list + "&state=closed").select("tbody tr"))
                .isEmpty();
        var wrong = as(Role.MANAGER).get(list + "&state=lost").expect(400);
        assertThat(Jsoup.parse(wrong.text()).select("main").text())
                .contains("\"lost\" is none of: open, acknowledged, closed.");
        as(Role.PROBE).get("/board/alerts").expect(403);
    }

    @Test
    void theRoomAndItsSheetTellTheAgreementAndTheTrimsOfAnOperatorAreFoundByName() {
        var operator = unique("Operator");
        var follower = studio.display("Follower", "oled");
        var heroRun = studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed());
        var followerRun = studio.run(follower, Purpose.AS_LEFT, clock.instant(), tinted(0.004, -0.002));
        studio.upload(heroRun);
        studio.upload(followerRun);
        engineer()
                .post(
                        "/matches",
                        studio.signOffDraft(
                                follower,
                                operator,
                                followerRun.id(),
                                heroRun.id(),
                                List.of(new Trim("gain.red", "all", 3), new Trim("bias.blue", "all", -1))))
                .expect(201);

        var room = page(as(Role.MANAGER), "/board/rooms/" + studio.room());
        assertThat(room.select("table:has(#agreed) tbody tr").text())
                .contains("Follower/User 1", operator, "bias.blue −1, gain.red +3", "Δu′ +0.0040, Δv′ −0.0020");
        var sheet =
                page(as(Role.CALIBRATOR), "/board/rooms/" + studio.room() + "/sheet?instrument=" + studio.instrument());
        assertThat(sheet.select("main").text())
                .contains("Static bright patches age emissive panels (Follower, Hero)", "1000 cd/m²", "gain.red +3")
                .contains(studio.name() + " meter: in hand");
        var trims = page(as(Role.MANAGER), "/board/operators?name=" + operator);
        assertThat(trims.select("tbody tr").eachText())
                .singleElement()
                .asString()
                .contains("Follower/User 1", "bias.blue −1, gain.red +3", "in force");
        assertThat(page(as(Role.MANAGER), "/board/operators")
                        .select("nav[aria-label=Operators] a")
                        .eachText())
                .contains(operator);
    }

    @Test
    void theDisplayThatLeavesToleranceNextStandsFirst() {
        var start = clock.instant().minus(Duration.ofDays(85));
        for (var week = 0; week <= 12; week++) {
            var purpose = week == 0 ? Purpose.AS_LEFT : Purpose.CHECK;
            var run = studio.run(
                    studio.hero(),
                    purpose,
                    start.plus(Duration.ofDays(7L * week)),
                    tinted(0.00008 * week, 0.00006 * week));
            studio.upload(Studio.atPanelHours(run, week * 70));
        }
        studio.display("Never", "lcd");

        var due = page(as(Role.MANAGER), "/board/due?facility=" + studio.facility());

        assertThat(due.select("table:has(#soonest) tbody th").eachText())
                .containsExactly(studio.name() + "/Grading 1/Hero/User 1");
        assertThat(due.select("table:has(#soonest) tbody").text()).contains("White crosses its limit");
        assertThat(due.select("table:has(#due) tbody tr").eachText())
                .anySatisfy(row -> assertThat(row).startsWith("due").contains("Never/User 1", "There is no baseline"));
    }

    @Test
    void theHistoryIsTheSameAsStripAsTableAndAsCsv() throws SQLException {
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed()));
        clock.advance(Duration.ofHours(5));
        studio.upload(studio.run(studio.hero(), Purpose.CHECK, clock.instant(), dimmed(0.8)));
        clock.advance(Duration.ofHours(5));
        var path = "/board/rooms/" + studio.room() + "/history";

        var page = page(as(Role.MANAGER), path);
        var rows = page.select("table tbody tr");
        assertThat(page.select("svg rect[class^=bar]")).hasSameSizeAs(rows);
        assertThat(rows.first()).isNotNull();
        assertThat(rows.first().text()).contains("not ready", "Hero: It moved.", "(first engineer)");
        assertThat(rows.eachText())
                .anySatisfy(row -> assertThat(row).contains("ready").contains("as-left"));
        var csv = as(Role.MANAGER).get(only(hrefs(page.body()), path + ".csv")).expect(200);
        assertThat(csv.header("Content-Type")).startsWith("text/csv");
        assertThat(csv.text())
                .as("RFC 4180: lines end with CRLF")
                .contains("\r\n")
                .endsWith("\r\n");
        assertThat(statesReadByPostgres(csv.text()))
                .isEqualTo(
                        engineer()
                                .get("/rooms/" + studio.room() + "/readiness-history")
                                .as(ReadinessHistory.class)
                                .spans()
                                .stream()
                                .map(span -> span.state().toString())
                                .toList());

        var wrong = Jsoup.parse(as(Role.MANAGER)
                .get(path + "?from=yesterday&to=2026-02-30")
                .expect(400)
                .text());
        assertThat(wrong.select("#trouble").text()).isEqualTo("\"yesterday\" is no day: write it like 2026-11-27.");
        assertThat(wrong.select("input[name=from]").attr("value")).isEqualTo("yesterday");
    }

    /** An independent reader of CSV: the database's COPY. */
    private static List<String> statesReadByPostgres(String csv) throws SQLException {
        try (var connection = DATABASE.connect();
                var statement = connection.createStatement()) {
            statement.execute("create temp table taken (n serial, facility text, room text, starts timestamptz,"
                    + " ends timestamptz, state text, reasons text, what text, whom text)");
            connection
                    .unwrap(PGConnection.class)
                    .getCopyAPI()
                    .copyIn(
                            "copy taken (facility, room, starts, ends, state, reasons, what, whom) from stdin csv header",
                            new StringReader(csv));
            var states = new java.util.ArrayList<String>();
            try (var rows = statement.executeQuery("select state from taken where starts < ends order by n")) {
                while (rows.next()) {
                    states.add(rows.getString(1));
                }
            }
            return states;
        } catch (java.io.IOException failed) {
            throw new AssertionError(failed);
        }
    }

    @Test
    void aRoomIsShownAsItStoodAndThePageSaysSo() {
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed()));
        var then = clock.advance(Duration.ofHours(1));
        clock.advance(Duration.ofHours(1));
        studio.upload(studio.run(studio.hero(), Purpose.CHECK, clock.instant(), dimmed(0.8)));
        var path = "/board/rooms/" + studio.room();

        var past = page(as(Role.MANAGER), path + "?as-of=" + then);
        assertThat(past.select(".past").text()).startsWith("You are looking at the past: the book as it stood at");
        assertThat(past.select("h1 + p b").text()).isEqualTo("ready");
        assertThat(page(as(Role.MANAGER), path).select("h1 + p b").text()).isEqualTo("not ready");
        var facility = page(as(Role.MANAGER), "/board/facilities/" + studio.facility() + "?as-of=" + then);
        assertThat(facility.select("table.rooms tbody tr").text()).startsWith("ready Grading 1");
        // typed by the clock of Lisbon, which is that of UTC in winter and an hour ahead in summer
        var typed = java.time.LocalDateTime.ofInstant(then, java.time.ZoneId.of("Europe/Lisbon"))
                .truncatedTo(java.time.temporal.ChronoUnit.SECONDS);
        assertThat(as(Role.MANAGER).get(path + "?stood-at=" + typed).expect(302).header("Location"))
                .endsWith(path + "?as-of=" + then.truncatedTo(java.time.temporal.ChronoUnit.SECONDS));
        as(Role.MANAGER).get(path + "?stood-at=lately").expect(400);
    }

    @Test
    void anAddressThatIsNotUnderstoodIsExplainedOnce() {
        var page =
                Jsoup.parse(as(Role.MANAGER).get("/board?from=mail").expect(400).text());

        assertThat(page.select("main").text()).containsOnlyOnce("There is no such parameter");
        assertThat(hrefs(page.select("main").first())).contains("/board");
    }

    @Test
    void everyPageHasATitleOneHeadingLandmarksAndNamedTablesAndFields() {
        studio.upload(studio.run(studio.hero(), Purpose.AS_LEFT, clock.instant(), asAimed()));
        var room = "/board/rooms/" + studio.room();
        for (var path : List.of(
                "/board",
                "/board/facilities/" + studio.facility(),
                room,
                room + "/sheet",
                room + "/history",
                "/board/alerts",
                "/board/due?facility=" + studio.facility(),
                "/board/plan",
                "/board/operators",
                "/board/rooms/" + UUID.randomUUID())) {
            var page = Jsoup.parse(engineer().get(path).text());
            assertThat(page.title()).as(path).endsWith(" – Panelbook");
            assertThat(page.select("html[lang=en] body > main#content h1"))
                    .as(path)
                    .hasSize(1);
            assertThat(page.select("body > header nav[aria-label=Pages] a"))
                    .as(path)
                    .hasSize(5);
            assertThat(page.select("table:not(:has(caption)), th:not([scope])"))
                    .as(path)
                    .isEmpty();
            // WCAG 2.2, success criteria 1.3.1 and 4.1.2: every field has a name
            assertThat(page.select("input:not([type=hidden]), select, textarea").stream()
                            .filter(field -> field.closest("label") == null
                                    && page.select("label[for=" + field.id() + "]")
                                            .isEmpty()))
                    .as(path)
                    .isEmpty();
            assertThat(page.select("[style], script:not([src]), [onclick]"))
                    .as("nothing a strict policy forbids, " + path)
                    .isEmpty();
        }
    }

    private static Document page(Http who, String path) {
        return Jsoup.parse(who.get(path).expect(200).text());
    }

    private static List<String> hrefs(Element part) {
        return part.select("a[href]").eachAttr("href");
    }

    private static String only(List<String> addresses, String start) {
        return addresses.stream()
                .filter(address -> address.startsWith(start))
                .findFirst()
                .orElseThrow();
    }
}
