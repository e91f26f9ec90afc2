package panelbook.app.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.net.http.HttpResponse;
import java.util.List;
import java.util.function.Consumer;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestMethodOrder;
import panelbook.app.testing.Browser;
import panelbook.app.testing.ServiceTest;

/** Signing in by the OpenID Connect provider of a house. */
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class ProviderTest extends ServiceTest {

    private static final String ANY_PAGE = "/board/password";

    /** First, while the service never spoke to the provider: it started without. */
    @Test
    @Order(1)
    void whileTheProviderIsAwayPeopleAreToldAndOtherWaysAreOpen() {
        var browser = browser();
        assertThat(browser.get("/sign-in").body()).contains("/sign-in/with/house");
        var away = browser.get("/sign-in/with/house");
        assertThat(away.statusCode()).isEqualTo(503);
        assertThat(away.body()).contains("cannot be reached at this moment");
        assertThat(browser.signInByToken(engineer().token()).statusCode()).isEqualTo(303);
    }

    @Test
    @Order(2)
    void whomTheProviderVouchesForComesInByTheRoleThatTheirGroupsGive() throws Exception {
        try (var provider = new FakeProvider(PROVIDER)) {
            provider.groups = List.of("choir", "office");
            var browser = browser();
            var in = comeBack(browser, provider, "/sign-in/with/house?to=%2Fboard%2Fpassword");
            assertThat(in.statusCode()).as(in.body()).isEqualTo(303);
            assertThat(in.headers().firstValue("Location")).hasValue(ANY_PAGE);
            assertThat(browser.get(ANY_PAGE).body())
                    .contains("Person person-1, manager")
                    .contains("did not sign in with a password");

            provider.subject = "person-2";
            provider.groups = List.of("office", "screens");
            var other = browser();
            comeBack(other, provider, "/sign-in/with/house?to=https%3A%2F%2Felsewhere.example");
            assertThat(other.get(ANY_PAGE).body()).contains("Person person-2, engineer");

            assertRefused(provider, "gives you no role here", now -> now.groups = List.of("choir"));
            provider.groups = List.of("office");
            assertRefused(provider, "did not vouch for you", now -> now.nonceInstead = "of an earlier sign-in");
            provider.nonceInstead = "";
            assertRefused(provider, "did not vouch for you", now -> now.wrongKey = true);
            provider.wrongKey = false;
            assertRefused(provider, "did not vouch for you", now -> now.audience = "another service");
            provider.audience = "panelbook-here";
            assertRefused(provider, "did not vouch for you", now -> now.expired = true);
            provider.expired = false;

            var victim = browser();
            var stolen = provider.approve(place(browser().get("/sign-in/with/house")));
            assertThat(victim.get(local(stolen)).body())
                    .as("a code that another browser asked for")
                    .contains("did not vouch for you");
            assertThat(victim.get(ANY_PAGE).statusCode()).isEqualTo(303);
        }
    }

    private void assertRefused(FakeProvider provider, String words, Consumer<FakeProvider> spoil) {
        spoil.accept(provider);
        var browser = browser();
        var back = comeBack(browser, provider, "/sign-in/with/house");
        assertThat(back.statusCode()).as(back.body()).isEqualTo(403);
        assertThat(back.body()).contains(words);
        assertThat(browser.get(ANY_PAGE).statusCode()).isEqualTo(303);
    }

    private static HttpResponse<String> comeBack(Browser browser, FakeProvider provider, String start) {
        return browser.get(local(provider.approve(place(browser.get(start)))));
    }

    private static String place(HttpResponse<String> response) {
        return response.headers()
                .firstValue("Location")
                .orElseThrow(() -> new AssertionError(response.statusCode() + " " + response.body()));
    }

    /** The address that the provider sends the browser back to, as a path here. */
    private static String local(String address) {
        var uri = URI.create(address);
        assertThat(uri.getPath()).isEqualTo("/sign-in/back/house");
        return uri.getRawPath() + "?" + uri.getRawQuery();
    }
}
