package panelbook.app.browser;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;
import static panelbook.app.testing.Studio.asAimed;

import java.time.Duration;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.openqa.selenium.Keys;
import panelbook.app.testing.ServiceTest;
import panelbook.app.testing.Studio;
import panelbook.wire.AccountDraft;
import panelbook.wire.Alert;
import panelbook.wire.Preset;
import panelbook.wire.Proof;
import panelbook.wire.Purpose;
import panelbook.wire.ReadinessState;
import panelbook.wire.Role;
import panelbook.wire.RunUpload;
import panelbook.wire.Trim;

/**
 * What people do on the board: a manager with a client on the phone, an engineer who takes an alert in hand, people who have only
 * a keyboard, a narrow screen or no scripts.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class BoardInBrowserTest extends ServiceTest {

    private static final String PASSWORD = "a quiet grey board at four";
    private static final String OPERATOR = "Operator of the tests";

    private Browser browser;
    private Studio studio;
    private UUID follower;
    private UUID display;
    private RunUpload moved;
    private String manager;
    private String engineer;

    @BeforeAll
    void aYearOfARoomWhoseFollowerMovesAtItsEnd() {
        assumeTrue(Browser.isThere(), "There is no browser here: chromium and chromedriver are needed");
        studio = new Studio(engineer(), unique("Harbour"));
        follower = studio.display("Client", "lcd");
        display = engineer().get("/presets/" + follower).as(Preset.class).displayId();
        // people name things as they like, and a page must bear it
        studio.meter(UUID.randomUUID(), unique("M".repeat(120)), null);
        var hours = 1000.0;
        measure(studio.hero(), Purpose.AS_LEFT, hours, 1);
        measure(follower, Purpose.AS_LEFT, hours, 1);
        clock.advance(Duration.ofMinutes(30));
        var heroRun = studio.run(studio.hero(), Purpose.MATCH, clock.instant(), asAimed());
        var ownRun = studio.run(follower, Purpose.MATCH, clock.instant(), Studio.tinted(0.006, -0.002));
        studio.upload(heroRun);
        studio.upload(ownRun);
        engineer()
                .post(
                        "/matches",
                        studio.signOffDraft(
                                follower,
                                OPERATOR,
                                ownRun.id(),
                                heroRun.id(),
                                List.of(new Trim("gain.red", "all", 3), new Trim("gain.blue", "all", -2))))
                .expect(201);
        for (var week = 1; week <= 7; week++) {
            clock.advance(Duration.ofDays(7));
            measure(studio.hero(), Purpose.CHECK, hours + 70 * week, Math.exp(-0.0005 * week));
            var run = studio.run(follower, Purpose.CHECK, clock.instant(), Studio.tinted(0.006, -0.002));
            studio.upload(Studio.atPanelHours(run, hours + 80 * week));
        }
        clock.advance(Duration.ofDays(2));
        moved = studio.run(follower, Purpose.CHECK, clock.instant(), Studio.tinted(0.016, -0.006));
        studio.upload(moved);
        clock.advance(Duration.ofDays(3));
        manager = account(Role.MANAGER);
        engineer = account(Role.ENGINEER);
        browser = Browser.open(address(), true);
    }

    private void measure(UUID preset, Purpose purpose, double hours, double light) {
        var run = studio.run(preset, purpose, clock.instant(), Studio.dimmed(light));
        studio.upload(Studio.atPanelHours(run, hours));
    }

    private String account(Role role) {
        var name = unique(role.toString()).replace(' ', '-');
        engineer()
                .post("/accounts", new AccountDraft(UUID.randomUUID(), name, unique("Holder"), role, PASSWORD))
                .expect(201);
        return name;
    }

    @AfterAll
    void close() {
        if (browser != null) {
            browser.close();
        }
    }

    @BeforeEach
    void sitDown() {
        browser.wide(1280).go("/sign-in").forget();
        browser.complaints();
    }

    private Browser signIn(String name) {
        return browser.go("/board")
                .type("Name", name)
                .type("Password", PASSWORD)
                .press("Sign in")
                .until("signed in", () -> browser.address().startsWith("/board"));
    }

    @Test
    void aManagerFindsTheRoomThatIsNotReadyFollowsTheReasonToTheReadingAndPrintsTheProof() {
        signIn(manager);
        assertThat(browser.address()).as("the page that was asked for").startsWith("/board");
        browser.go("/board/facilities/" + studio.facility());
        assertThat(browser.first("table.rooms tbody tr").getText())
                .as("the worst room comes first, with its state in a word and why")
                .contains("not ready", "Grading 1", "It moved");

        browser.follow("Grading 1")
                .until("the page of the room", () -> browser.title().startsWith("Grading 1"));
        assertThat(browser.text()).contains("not ready", "It moved", OPERATOR);
        browser.follow("The readings")
                .until("the page of the run", () -> browser.title().startsWith("Run of"));
        assertThat(browser.address()).isEqualTo("/board/runs/" + moved.id());
        var white = moved.readings().get(10);
        assertThat(browser.text())
                .as("the reading that the reason rests on, the meter and its certificate")
                .contains(String.valueOf(white.red()), studio.name() + " meter", "C-1");

        browser.go("/board/rooms/" + studio.room());
        // a day of the room's zone, before it moved
        var tuesday =
                LocalDate.ofInstant(moved.takenAt(), ZoneId.of("Europe/Lisbon")).minusDays(1);
        browser.type("Proof of how it stood on", tuesday.toString())
                .press("Show the proof")
                .until("the page of the proof", () -> browser.title().startsWith("Proof of"));
        assertThat(browser.text()).contains("ready").doesNotContain("It moved");
        browser.press("Make the PDF");
        browser.until("the proof is handed out", () -> !proofs().isEmpty());
        var proof = proofs().get(0);
        assertThat(proof.day()).isEqualTo(tuesday);
        assertThat(proof.state()).as("it moved only later").isNotEqualTo(ReadinessState.NOT_READY);
        var start = browser.script(
                "return fetch('/board/proofs/' + arguments[0] + '.pdf').then(r => r.text()).then(t => t.substring(0, 5))",
                proof.id().toString());
        assertThat(start).isEqualTo("%PDF-");
    }

    private List<Proof> proofs() {
        return engineer().all("/rooms/" + studio.room() + "/proofs", Proof.class);
    }

    @Test
    void everyPageReadsAtEveryWidthForEverybodyAndBreaksNoRuleOfItsOwn() {
        browser.go("/sign-in");
        looksRight("sign-in");
        signIn(engineer);
        var alert = engineer()
                .get("/alerts?room=" + studio.room())
                .asPageOf(Alert.class)
                .items()
                .get(0)
                .id();
        var room = "/board/rooms/" + studio.room();
        var pages = new LinkedHashMap<String, String>();
        pages.put("facility", "/board/facilities/" + studio.facility());
        pages.put("room", room);
        pages.put("room-in-the-past", room + "?as-of=" + moved.takenAt().minus(Duration.ofDays(1)));
        pages.put("sheet", room + "/sheet");
        pages.put("history", room + "/history");
        pages.put("proof", room + "/proof");
        pages.put("display", "/board/displays/" + display);
        pages.put("run", "/board/runs/" + moved.id());
        pages.put("alerts", "/board/alerts?facility=" + studio.facility());
        pages.put("alert", "/board/alerts/" + alert);
        pages.put("due", "/board/due?facility=" + studio.facility());
        pages.put("plan", "/board/plan");
        pages.put("operators", "/board/operators?name=" + OPERATOR.replace(" ", "%20"));
        pages.put("password", "/board/password");
        pages.put("nowhere", "/board/rooms/" + UUID.randomUUID());
        pages.forEach((name, address) -> {
            browser.go(address);
            looksRight(name);
        });
    }

    private void looksRight(String name) {
        for (var width : List.of(1280, 390)) {
            browser.wide(width);
            browser.picture(name + "-" + width);
            browser.until(
                    name + " can be read at " + width + " px without scrolling sideways",
                    () -> !browser.scrollsSideways());
        }
        browser.wide(1280);
        assertThat(browser.barriers()).as("barriers on the page " + name).isEmpty();
        assertThat(browser.all("h1"))
                .as("one heading says what the page " + name + " is")
                .hasSize(1);
        assertThat(browser.title()).as(name).endsWith("Panelbook");
        assertThat(browser.complaints().stream().filter(one -> !one.startsWith("FINE") && !one.contains("404")))
                .as("what the browser complained of on the page " + name)
                .isEmpty();
    }

    @Test
    void aKeyboardIsEnough() {
        browser.go("/board/rooms/" + studio.room());
        for (var presses = 0; presses < 3 && !"name".equals(browser.focused().getDomAttribute("name")); presses++) {
            browser.key(Keys.TAB);
        }
        browser.focused().sendKeys(manager, Keys.TAB, PASSWORD, Keys.ENTER);
        browser.until("signed in", () -> browser.address().startsWith("/board/rooms/"));
        browser.key(Keys.TAB);
        assertThat(browser.focused().getText())
                .as("the first stop leads past the header")
                .isEqualTo("To the content");
        browser.key(Keys.ENTER).key(Keys.TAB);
        assertThat(browser.script("return document.querySelector('main').contains(document.activeElement)"))
                .as("the next stop lies in the content")
                .isEqualTo(true);
        assertThat(browser.script("return getComputedStyle(document.activeElement).outlineStyle"))
                .as("it can be seen where one is")
                .isNotEqualTo("none");
    }

    @Test
    void whoMayOnlyReadFindsNoFormAndAnEngineerTakesTheAlertInHand() {
        var alert = engineer()
                .get("/alerts?room=" + studio.room())
                .asPageOf(Alert.class)
                .items()
                .get(0);
        signIn(manager).go("/board/alerts/" + alert.id());
        assertThat(browser.all("main form[method=post]")).isEmpty();
        browser.go("/sign-in").forget();
        signIn(engineer).go("/board/alerts/" + alert.id());
        browser.type("I have it in hand", "the probe goes there at noon")
                .press("Acknowledge")
                .until("it is acknowledged", () -> browser.text().contains("the probe goes there at noon"));
        assertThat(browser.text()).contains("the probe goes there at noon", "acknowledged");
        assertThat(engineer().get("/alerts/" + alert.id()).as(Alert.class).acknowledgedAt())
                .isNotNull();
    }

    @Test
    void anOpenPageShowsWhatComesInWithoutBeingAskedAndWithoutLosingItsPlace() {
        var other = new Studio(engineer(), unique("Mole"));
        other.upload(other.run(other.hero(), Purpose.AS_LEFT, clock.advance(Duration.ofMinutes(1)), asAimed()));
        signIn(manager).go("/board/rooms/" + other.room());
        browser.until("the page of the room", () -> browser.title().startsWith("Grading 1"));
        assertThat(browser.text()).doesNotContain("It moved");
        browser.until(
                "the page listens",
                () -> Boolean.TRUE.equals(browser.script(
                        "return performance.getEntriesByType('resource').some(e => e.name.includes('/board/stream'))"
                                + " || document.querySelector('#updated') !== null")));
        clock.advance(Duration.ofDays(1));
        other.upload(other.run(other.hero(), Purpose.CHECK, clock.instant(), Studio.dimmed(0.8)));
        browser.until(
                "the page shows that the display moved", () -> browser.text().contains("moved"));
    }

    @Test
    void withoutScriptsEverythingIsThere() {
        try (var plain = Browser.open(address(), false)) {
            plain.go("/board/facilities/" + studio.facility())
                    .type("Name", manager)
                    .type("Password", PASSWORD)
                    .press("Sign in");
            plain.follow("Grading 1");
            assertThat(plain.text()).contains("not ready");
            plain.go("/board/displays/" + display);
            assertThat(plain.all("main svg[role=graphics-document]"))
                    .as("charts")
                    .hasSizeGreaterThan(4);
            plain.picture("display-without-scripts");
        }
    }

    @Test
    void eachChartSaysInWordsWhatItShowsAndHasItsData() {
        signIn(manager).go("/board/displays/" + display);
        var charts = browser.all("main svg[role=graphics-document]");
        assertThat(charts).hasSizeGreaterThan(4);
        for (var chart : charts) {
            assertThat(browser.script("return arguments[0].querySelector('desc').textContent", chart))
                    .asString()
                    .hasSizeGreaterThan(20);
        }
        assertThat(browser.all("main details table"))
                .as("a table of data for each chart")
                .hasSizeGreaterThanOrEqualTo(charts.size());
    }
}
