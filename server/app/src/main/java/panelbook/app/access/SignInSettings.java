package panelbook.app.access;

import java.time.Duration;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How people come in and how long they stay: {@code panelbook.sign-in.*}.
 *
 * @param idle without asking for a page; what a page asks for by itself does not count
 * @param atMost whatever they do
 * @param oidc the OpenID Connect provider of the house; null when it has none
 */
@ConfigurationProperties("panelbook.sign-in")
record SignInSettings(
        @DefaultValue("2h") Duration idle,
        @DefaultValue("12h") Duration atMost,
        @Nullable Oidc oidc) {

    /**
     * {@code panelbook.sign-in.oidc.*}. The provider has to know the address {@code https://SERVICE/sign-in/back/house}.
     *
     * @param issuer the provider, as its tokens name it
     * @param clientId what the provider calls this service
     * @param label how the sign-in page calls the provider
     * @param scopes what is asked for
     * @param roleClaim claim of the ID token that gives the role, a word or a list of words; dots lead into claims within claims
     * @param engineers words that make an engineer; and so on, the one that may most first
     * @param holderClaim claim of the ID token that names the person in the audit log
     */
    record Oidc(
            @Nullable String issuer,
            @Nullable String clientId,
            @Nullable String clientSecret,
            @DefaultValue("The sign-in of the house") String label,
            @DefaultValue({"openid", "profile"}) Set<String> scopes,
            @Nullable String roleClaim,
            @DefaultValue List<String> engineers,
            @DefaultValue List<String> calibrators,
            @DefaultValue List<String> managers,
            @DefaultValue("name") String holderClaim) {

        Oidc {
            if (issuer == null || clientId == null || clientSecret == null || roleClaim == null) {
                throw new IllegalArgumentException(
                        "panelbook.sign-in.oidc needs issuer, client-id, client-secret and role-claim:"
                                + " set all four, or none to do without a provider.");
            }
        }
    }
}
