package panelbook.app.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.http.HttpResponse;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.Account;
import panelbook.wire.AccountDraft;
import panelbook.wire.Role;

/** How people come onto the board, and how they leave it. */
class SignInTest extends ServiceTest {

    private static final String PASSWORD = "seven grey cards in a drawer";

    @Test
    void somebodyWithAnAccountComesInByNameAndPasswordAndBackToThePageAskedFor() {
        var manager = account(Role.MANAGER);
        var browser = browser();

        var asked = browser.get("/board/password?from=mail");
        assertThat(asked.statusCode()).isEqualTo(303);
        assertThat(place(asked)).isEqualTo("/sign-in?to=%2Fboard%2Fpassword%3Ffrom%3Dmail");
        browser.get(place(asked));
        var in = browser.post(
                "/sign-in", "name", manager.name().toUpperCase(), "password", PASSWORD, "to", "/board/password");

        assertThat(place(in)).isEqualTo("/board/password");
        assertThat(browser.get("/board/password").body())
                .as("the page says who is signed in")
                .contains(manager.holder() + ", manager");
    }

    @Test
    void anEngineersTokenSignsInAsWellAndAProbesDoesNot() {
        var browser = browser();
        var in = browser.signInByToken(newToken(Role.ENGINEER, "Engineer T").secret());
        assertThat(place(in)).isEqualTo("/board");
        assertThat(browser.get("/board/password").body()).contains("Engineer T, engineer");

        var probe = browser().signInByToken(newToken(Role.PROBE, "Probe P").secret());
        assertThat(probe.statusCode()).isEqualTo(401);
        assertThat(probe.body()).contains("opens no pages");
    }

    private Account account(Role role) {
        var draft = new AccountDraft(UUID.randomUUID(), unique("person"), unique("Holder"), role, PASSWORD);
        return engineer().post("/accounts", draft).expect(201).as(Account.class);
    }

    private static String place(HttpResponse<String> response) {
        return response.headers()
                .firstValue("Location")
                .orElseThrow(() -> new AssertionError(response.statusCode() + " " + response.body()));
    }
}
