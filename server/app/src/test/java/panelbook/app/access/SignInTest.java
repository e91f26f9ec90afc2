package panelbook.app.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.concurrent.Executors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.app.testing.Browser;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Account;
import panelbook.wire.AccountDraft;
import panelbook.wire.AuditEntry;
import panelbook.wire.NewToken;
import panelbook.wire.PasswordDraft;
import panelbook.wire.Role;
import panelbook.wire.TokenDraft;

/** How people come onto the board, and how they leave it. */
class SignInTest extends ServiceTest {

    private static final String PASSWORD = "seven grey cards in a drawer";
    private static final String OTHER = "another ladder behind the screen";
    private static final String ANY_PAGE = "/board/password";
    private static final String SESSION = "panelbook-session";

    @Test
    void somebodyWithAnAccountComesInByNameAndPasswordAndBackToThePageAskedFor() {
        var manager = account(Role.MANAGER);
        var browser = browser();

        var asked = browser.get("/board/password?from=mail");
        assertThat(asked.statusCode()).isEqualTo(303);
        assertThat(place(asked)).isEqualTo("/sign-in?to=%2Fboard%2Fpassword%3Ffrom%3Dmail");
        browser.get(place(asked));
        var in = browser.post(
                "/sign-in",
                "name",
                manager.name().toUpperCase(Locale.ROOT),
                "password",
                PASSWORD,
                "to",
                "/board/password");

        assertThat(place(in)).isEqualTo("/board/password");
        assertThat(browser.get("/board/password").body())
                .as("the page says who is signed in")
                .contains(manager.holder() + ", manager");
        assertThat(place(browser.get("/"))).isEqualTo("/board");
    }

    @Test
    void anEngineersTokenSignsInAsWellAndAProbesDoesNot() {
        var browser = browser();
        var in = browser.signInByToken(newToken(Role.ENGINEER, "Engineer T").secret());
        assertThat(place(in)).isEqualTo("/board");
        var page = browser.get(ANY_PAGE);
        assertThat(page.body()).contains("Engineer T, engineer");
        assertThat(browser.get(ANY_PAGE).headers().allValues("Set-Cookie"))
                .as("pages open side by side keep the session and their forms")
                .isEmpty();

        var probe = browser().signInByToken(newToken(Role.PROBE, "Probe P").secret());
        assertThat(probe.statusCode()).isEqualTo(401);
        assertThat(probe.body()).contains("opens no pages");
    }

    @Test
    void aWrongPasswordAndANameThatNobodyHasAreToldAlikeAndTheNameStandsThereAgain() {
        var account = account(Role.MANAGER);
        var wrong = browser().signIn(account.name(), OTHER);
        var unknown = browser().signIn("nobody at all", OTHER);

        assertThat(wrong.statusCode()).isEqualTo(401);
        assertThat(unknown.statusCode()).isEqualTo(401);
        assertThat(alert(wrong)).isEqualTo(alert(unknown)).contains("do not belong together");
        assertThat(wrong.body()).contains("value=\"" + account.name() + "\"").doesNotContain(OTHER);
    }

    @Test
    void afterFiveFailuresANameWaitsAndEachFurtherOneDoublesTheWaitUpToAnHour() {
        var account = account(Role.CALIBRATOR);
        var browser = browser();
        for (var n = 0; n < 5; n++) {
            assertThat(browser.signIn(account.name(), OTHER).statusCode()).isEqualTo(401);
        }
        for (var seconds : new int[] {30, 60, 120, 240, 480, 960, 1920, 3600, 3600}) {
            var early = browser.signIn(account.name(), PASSWORD);
            assertThat(early.statusCode())
                    .as("even the right password waits %d s", seconds)
                    .isEqualTo(429);
            assertThat(alert(early)).contains("Try again in");
            clock.advance(Duration.ofSeconds(seconds).minusMillis(1));
            assertThat(browser.signIn(account.name(), OTHER).statusCode())
                    .as("a moment before %d s are over", seconds)
                    .isEqualTo(429);
            clock.advance(Duration.ofMillis(1));
            assertThat(browser.signIn(account.name(), OTHER).statusCode())
                    .as("after %d s", seconds)
                    .isEqualTo(401);
        }
        clock.advance(Duration.ofHours(1));
        assertThat(place(browser.signIn(account.name(), PASSWORD)))
                .as("nobody is locked out for good")
                .isEqualTo("/board");
        assertThat(browser().signIn(account.name(), OTHER).statusCode())
                .as("success forgives")
                .isEqualTo(401);
    }

    @Test
    void aNameThatNobodyHasWaitsLikeAnyOther() {
        var name = unique("nobody");
        for (var n = 0; n < 5; n++) {
            assertThat(browser().signIn(name, OTHER).statusCode()).isEqualTo(401);
        }
        var wait = browser().signIn(name, OTHER);
        assertThat(wait.statusCode()).isEqualTo(429);
        assertThat(wait.headers().firstValue("Retry-After")).hasValue("31");
    }

    @Test
    void manyTriesAtOnceAreNoMoreThanOneAfterTheOther() throws Exception {
        var name = unique("nobody");
        var browsers = Stream.generate(this::browser)
                .limit(10)
                .peek(browser -> browser.get("/sign-in"))
                .toList();
        var threads = Executors.newFixedThreadPool(browsers.size());
        try {
            var answers = browsers.stream()
                    .map(browser -> threads.submit(() -> browser.post("/sign-in", "name", name, "password", OTHER)
                            .statusCode()))
                    .toList();
            var statuses = new ArrayList<Integer>();
            for (var answer : answers) {
                statuses.add(answer.get());
            }
            assertThat(statuses)
                    .filteredOn(status -> status == 401)
                    .as("tries that were looked at")
                    .hasSize(5);
            assertThat(statuses)
                    .filteredOn(status -> status == 429)
                    .as("tries that had to wait")
                    .hasSize(5);
        } finally {
            threads.shutdownNow();
        }
    }

    @Test
    void strangersCannotKeepSomebodyOutWhereTheyCameInBefore() {
        var account = account(Role.MANAGER);
        var home = Browser.anyAddress();
        assertThat(place(browser().from(home).signIn(account.name(), PASSWORD))).isEqualTo("/board");
        for (var n = 0; n < 5; n++) {
            browser().signIn(account.name(), OTHER);
        }
        assertThat(browser().signIn(account.name(), PASSWORD).statusCode()).isEqualTo(429);
        assertThat(place(browser().from(home).signIn(account.name(), PASSWORD)))
                .as("from the usual address")
                .isEqualTo("/board");
    }

    @Test
    void anAddressThatTriesManyNamesWaitsAndSoDoItsNeighboursAndNobodyElse() {
        var home = "2001:db8:0:7:0:0:0:";
        for (var n = 0; n < 30; n++) {
            var browser = browser().from(home + n);
            browser.get("/sign-in");
            assertThat(browser.post("/sign-in", "token", "panelbook_guess" + n).statusCode())
                    .isEqualTo(401);
        }
        assertThat(browser().from(home + "ff").signIn("anybody", OTHER).statusCode())
                .isEqualTo(429);
        assertThat(browser()
                        .from("2001:db8:0:8:0:0:0:1")
                        .signIn("anybody else", OTHER)
                        .statusCode())
                .isEqualTo(401);
    }

    @Test
    void aSessionThatSomebodyElsePlantedIsNotTheOneThatSignsIn() {
        var account = account(Role.MANAGER);
        var attacker = browser();
        attacker.signInByToken(newToken(Role.MANAGER, "Somebody else").secret());
        var planted = attacker.cookies().get(SESSION);

        var victim = browser();
        victim.cookies().put(SESSION, planted);
        victim.get("/sign-in");
        victim.post("/sign-in", "name", account.name(), "password", PASSWORD);

        assertThat(victim.cookies().get(SESSION)).isNotEqualTo(planted);
        assertThat(victim.get(ANY_PAGE).body()).contains(account.holder());
        assertThat(place(attacker.get(ANY_PAGE)))
                .as("the planted session is gone")
                .startsWith("/sign-in");
    }

    @Test
    void aFormThatDoesNotComeFromOurPageChangesNothing() {
        var account = account(Role.MANAGER);
        var browser = browser();
        browser.get("/sign-in");
        assertThat(browser.postFromElsewhere("/sign-in", "name", account.name(), "password", PASSWORD)
                        .statusCode())
                .as("signing in as the forger")
                .isEqualTo(403);
        browser.signIn(account.name(), PASSWORD);
        browser.get(ANY_PAGE);

        var forged =
                browser.postFromElsewhere(ANY_PAGE, "old-password", PASSWORD, "new-password", OTHER, "note", "typed");
        assertThat(forged.statusCode()).isEqualTo(403);
        assertThat(forged.headers().firstValue("Content-Type").orElseThrow()).startsWith("text/html");
        assertThat(forged.body()).contains("Nothing was changed").doesNotContain(OTHER);
        assertThat(browser.postFromElsewhere("/sign-out").statusCode()).isEqualTo(403);
        assertThat(browser.get(ANY_PAGE).statusCode()).as("still signed in").isEqualTo(200);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "https://elsewhere.example/board",
                "//elsewhere.example",
                "/\\elsewhere.example",
                "/board\\..\\elsewhere",
                "/boardroom",
                "javascript:alert(1)",
                "/board/\r\nLocation: https://elsewhere.example",
                "/sign-out",
                ""
            })
    void signingInLeadsToThisServiceOnly(String to) {
        var browser = browser();
        browser.get("/sign-in");
        var in = browser.post("/sign-in", "token", as(Role.MANAGER).token(), "to", to);
        assertThat(place(in)).isEqualTo("/board");
    }

    @Test
    void pagesForbidWhatIsNotOursAndAreNotKeptByCaches() {
        var browser = browser();
        browser.signInByToken(as(Role.MANAGER).token());
        for (var path :
                List.of("/sign-in", ANY_PAGE, "/board/no-such-page", "/board/password?unknown=1", "/board//x")) {
            var page = browser.get(path);
            assertThat(page.headers().firstValue("Content-Security-Policy"))
                    .as(path)
                    .hasValue("default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self';"
                            + " connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'");
            assertThat(page.headers().firstValue("Referrer-Policy")).as(path).hasValue("same-origin");
            assertThat(page.headers().firstValue("X-Content-Type-Options"))
                    .as(path)
                    .hasValue("nosniff");
            assertThat(page.headers().firstValue("X-Frame-Options")).as(path).hasValue("DENY");
            assertThat(page.headers().firstValue("Cache-Control").orElse(""))
                    .as(path)
                    .contains("no-store");
            assertThat(page.body())
                    .as("what the policy would refuse does not stand in %s", path)
                    .doesNotContain("<style")
                    .doesNotContain(" style=")
                    .doesNotContainPattern("<script(?![^>]* src=)")
                    .doesNotContainPattern(" on[a-z]+=\"");
        }
        var style = browser.get("/style/board.css");
        assertThat(style.statusCode()).isEqualTo(200);
        assertThat(style.headers().firstValue("Cache-Control")).hasValue("no-cache");
        assertThat(style.headers().firstValue("X-Content-Type-Options")).hasValue("nosniff");
    }

    @Test
    void cookiesAreForThisServiceAloneAndSecureBehindTls() {
        var plain = browser();
        plain.get("/sign-in");
        var set = plain.post("/sign-in", "token", as(Role.MANAGER).token())
                .headers()
                .allValues("Set-Cookie");
        assertThat(set)
                .anySatisfy(cookie -> assertThat(cookie)
                        .startsWith(SESSION + "=")
                        .contains("HttpOnly", "SameSite=Lax", "Path=/")
                        .doesNotContain("Secure")
                        .doesNotContain("Domain"));

        var behindTls = browser().with("X-Forwarded-Proto", "https");
        var page = behindTls.get("/sign-in");
        assertThat(page.headers().firstValue("Strict-Transport-Security")).isPresent();
        assertThat(page.headers().allValues("Set-Cookie"))
                .allSatisfy(cookie -> assertThat(cookie).contains("Secure", "HttpOnly", "SameSite=Strict"));
        assertThat(behindTls
                        .post("/sign-in", "token", as(Role.MANAGER).token())
                        .headers()
                        .allValues("Set-Cookie"))
                .allSatisfy(cookie -> assertThat(cookie).contains("Secure", "HttpOnly"));
    }

    @Test
    void aSessionEndsWhenItsAccountIsRetired() {
        var account = account(Role.CALIBRATOR);
        var browser = signedIn(account);
        engineer().post("/accounts/" + account.id() + "/retirement").expect(200);
        assertEnded(browser);
        assertThat(browser.signIn(account.name(), PASSWORD).statusCode()).isEqualTo(401);
    }

    @Test
    void anEngineersNewPasswordEndsAllSessionsAndOnesOwnNewOneAllOthers() {
        var account = account(Role.MANAGER);
        var first = signedIn(account);
        clock.advance(Duration.ofSeconds(1));
        engineer()
                .post("/accounts/" + account.id() + "/password", new PasswordDraft(OTHER))
                .expect(200);
        assertEnded(first);

        var here = browser();
        here.signIn(account.name(), OTHER);
        var elsewhere = browser();
        elsewhere.signIn(account.name(), OTHER);
        clock.advance(Duration.ofSeconds(1));
        here.get(ANY_PAGE);
        assertThat(here.post(ANY_PAGE, "old-password", PASSWORD, "new-password", PASSWORD)
                        .body())
                .contains("The old password is not right");
        here.get(ANY_PAGE);
        assertThat(here.post(ANY_PAGE, "old-password", OTHER, "new-password", "short")
                        .body())
                .contains("at least 12 characters");
        here.get(ANY_PAGE);
        assertThat(here.post(ANY_PAGE, "old-password", OTHER, "new-password", PASSWORD)
                        .body())
                .contains("Your password was changed");
        assertThat(here.get(ANY_PAGE).body()).contains(account.holder());
        assertEnded(elsewhere);

        assertThat(ofAccount(account).get(0))
                .as("who changed it last, by a session")
                .satisfies(entry -> {
                    assertThat(entry.actor()).isEqualTo(account.holder() + " (" + account.id() + ")");
                    assertThat(entry.toString()).doesNotContain("argon2").doesNotContain("secret_hash");
                });
    }

    @Test
    void aSessionEndsWhenItsTokenIsRevokedOrExpires() {
        var revoked = newToken(Role.MANAGER, "Manager R");
        var browser = browser();
        browser.signInByToken(revoked.secret());
        assertThat(browser.get(ANY_PAGE).statusCode()).isEqualTo(200);
        engineer().post("/tokens/" + revoked.token().id() + "/revocation").expect(200);
        assertEnded(browser);

        var draft = new TokenDraft(
                UUID.randomUUID(), "Manager E", Role.MANAGER, clock.instant().plusSeconds(60));
        var expiring = browser();
        expiring.signInByToken(
                engineer().post("/tokens", draft).as(NewToken.class).secret());
        clock.advance(Duration.ofSeconds(59));
        assertThat(expiring.get(ANY_PAGE).statusCode()).isEqualTo(200);
        clock.advance(Duration.ofSeconds(1));
        assertEnded(expiring);
    }

    @Test
    void aSessionEndsTwoHoursAfterTheLastPageThatAPersonAskedFor() {
        var browser = browser();
        browser.signInByToken(as(Role.MANAGER).token());
        clock.advance(Duration.ofMinutes(119));
        assertThat(browser.get(ANY_PAGE).statusCode()).isEqualTo(200);
        browser.with("Panelbook-Refresh", "1");
        clock.advance(Duration.ofMinutes(119));
        assertThat(browser.get(ANY_PAGE).statusCode())
                .as("a page that asks by itself")
                .isEqualTo(200);
        clock.advance(Duration.ofMinutes(1));
        assertEnded(browser);
    }

    @Test
    void aSessionEndsTwelveHoursAfterSigningInWhateverOneDoes() {
        var browser = browser();
        browser.signInByToken(as(Role.MANAGER).token());
        for (var hour = 1; hour < 12; hour++) {
            clock.advance(Duration.ofHours(1));
            assertThat(browser.get(ANY_PAGE).statusCode()).as("hour %d", hour).isEqualTo(200);
        }
        clock.advance(Duration.ofHours(1));
        assertEnded(browser);
    }

    @Test
    void signingOutEndsTheSessionForWhoeverKeptItsCookie() {
        var browser = browser();
        browser.signInByToken(as(Role.MANAGER).token());
        var kept = browser.cookies().get(SESSION);
        browser.get(ANY_PAGE);
        assertThat(place(browser.post("/sign-out"))).isEqualTo("/sign-in");
        browser.cookies().put(SESSION, kept);
        assertEnded(browser);
    }

    @Test
    void aSessionOpensNoOperationOfTheContract() {
        var browser = browser();
        browser.signInByToken(as(Role.ENGINEER).token());
        assertThat(browser.get("/api/v1/facilities").statusCode()).isEqualTo(401);
        assertThat(browser.get("/api/v1/identity").headers().firstValue("Content-Type"))
                .hasValue("application/problem+json");
    }

    @Test
    void aManagerReadsAndChangesNothingWhateverPageItIs() {
        var browser = browser();
        browser.signInByToken(as(Role.MANAGER).token());
        browser.get(ANY_PAGE);
        var refused = browser.post("/board/alerts/" + UUID.randomUUID() + "/acknowledgement", "note", "seen");
        assertThat(refused.statusCode()).isEqualTo(403);
        assertThat(refused.body()).contains("signed in as manager").contains("Nothing was changed");
    }

    @Test
    void whatWasTypedIntoAFormIsShownWhereTheSessionIsOver() {
        var token = newToken(Role.ENGINEER, "Engineer who goes");
        var browser = browser();
        browser.signInByToken(token.secret());
        browser.get(ANY_PAGE);
        engineer().post("/tokens/" + token.token().id() + "/revocation").expect(200);
        var late = browser.post("/board/rooms/x/notes", "reason", "two lines\n<b>of text", "password", "hidden");
        assertThat(late.statusCode()).isEqualTo(401);
        assertThat(late.body())
                .contains("not signed in any more")
                .contains("two lines\n&lt;b&gt;of text")
                .doesNotContain("hidden</dd>");
    }

    @Test
    void pagesTakeBearerTokensAndTheirProblemsAreThoseOfPrograms() {
        assertThat(as(Role.MANAGER).get(ANY_PAGE).expect(200).text()).contains("Your password");
        assertThat(nobody().with("panelbook_guess")
                        .get(ANY_PAGE)
                        .expect(401)
                        .problem()
                        .detail())
                .contains("not known");
        assertThat(as(Role.PROBE).get(ANY_PAGE).expect(403).problem().detail()).contains("probe");
        assertThat(as(Role.ENGINEER).get("/board/nowhere").expect(404).text())
                .contains("<h1>There is no such page</h1>");
        assertThat(as(Role.ENGINEER).get("/nowhere").expect(404).problem().status())
                .isEqualTo(404);
    }

    @Test
    void theAuditLogKnowsWhoTriedFromWhereAndNoPassword() {
        var account = account(Role.MANAGER);
        var address = Browser.anyAddress();
        browser().from(address).signIn(account.name(), OTHER);
        browser().from(address).signIn(account.name(), PASSWORD);
        browser().from(address).signIn("a password typed as a name", OTHER);

        var entries = engineer().all("/audit-entries?subject-kind=sign_in", AuditEntry.class).stream()
                .filter(entry -> entry.toString().contains(address))
                .toList();
        assertThat(entries).hasSize(3);
        assertThat(entries.get(2).toString()).contains("outcome=refused", "holder=" + account.holder());
        assertThat(entries.get(1).toString()).contains("outcome=in", "holder=" + account.holder());
        assertThat(entries.get(0).toString()).contains("outcome=refused", "holder=null");
        assertThat(entries.toString()).doesNotContain("a password typed").doesNotContain(PASSWORD);
    }

    @Test
    void anAccountThatWillNotDoIsRefusedWithAllItsPlaces() {
        var bad = new AccountDraft(UUID.randomUUID(), " x", "", Role.PROBE, "short");
        assertThat(engineer().post("/accounts", bad).expect(400).problem().errors())
                .extracting("pointer")
                .containsExactly("/name", "/holder", "/role", "/password");
        var name = unique("person");
        var holdsName = new AccountDraft(UUID.randomUUID(), name, "Holder", Role.MANAGER, "I am " + name + " today");
        assertThat(engineer().post("/accounts", holdsName).expect(400).problem().detail())
                .contains("must not hold the name");
        var longest = "é".repeat(999) + "x";
        var draft = new AccountDraft(UUID.randomUUID(), name, "Holder", Role.MANAGER, longest);
        engineer().post("/accounts", draft).expect(201);
        engineer().post("/accounts", draft).expect(200);
        assertThat(place(browser().signIn(name, "e\u0301".repeat(999) + "x")))
                .as("a long password, its letters composed in another way")
                .isEqualTo("/board");
        var again =
                new AccountDraft(UUID.randomUUID(), name.toUpperCase(Locale.ROOT), "Holder", Role.MANAGER, PASSWORD);
        assertThat(engineer().post("/accounts", again).expect(409).problem().detail())
                .contains("Somebody signs in by this name already");
        assertThat(engineer().get("/accounts?limit=500").text()).doesNotContain("argon2");
    }

    private Account account(Role role) {
        var draft = new AccountDraft(UUID.randomUUID(), unique("person"), unique("Holder"), role, PASSWORD);
        return engineer().post("/accounts", draft).expect(201).as(Account.class);
    }

    private Browser signedIn(Account account) {
        var browser = browser();
        browser.signIn(account.name(), PASSWORD);
        assertThat(browser.get(ANY_PAGE).statusCode()).isEqualTo(200);
        return browser;
    }

    private List<AuditEntry> ofAccount(Account account) {
        return engineer().all("/audit-entries?subject-kind=account&subject-id=" + account.id(), AuditEntry.class);
    }

    private static void assertEnded(Browser browser) {
        var page = browser.get(ANY_PAGE);
        assertThat(page.statusCode()).as("the session is over").isEqualTo(303);
        assertThat(place(page)).startsWith("/sign-in");
    }

    private static String alert(HttpResponse<String> page) {
        var at = page.body().indexOf("role=\"alert\"");
        return page.body().substring(at, page.body().indexOf("</p>", at));
    }

    private static String place(HttpResponse<String> response) {
        return response.headers()
                .firstValue("Location")
                .orElseThrow(() -> new AssertionError(response.statusCode() + " " + response.body()));
    }
}
