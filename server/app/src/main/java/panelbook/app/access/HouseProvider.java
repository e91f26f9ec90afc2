package panelbook.app.access;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Duration;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.security.config.ObjectPostProcessor;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.core.Authentication;
import org.springframework.security.oauth2.client.OAuth2AuthorizedClient;
import org.springframework.security.oauth2.client.oidc.userinfo.OidcUserService;
import org.springframework.security.oauth2.client.registration.ClientRegistration;
import org.springframework.security.oauth2.client.registration.ClientRegistrationRepository;
import org.springframework.security.oauth2.client.registration.ClientRegistrations;
import org.springframework.security.oauth2.client.web.DefaultOAuth2AuthorizationRequestResolver;
import org.springframework.security.oauth2.client.web.OAuth2AuthorizationRequestCustomizers;
import org.springframework.security.oauth2.client.web.OAuth2AuthorizationRequestRedirectFilter;
import org.springframework.security.oauth2.client.web.OAuth2AuthorizationRequestResolver;
import org.springframework.security.oauth2.client.web.OAuth2AuthorizedClientRepository;
import org.springframework.security.oauth2.core.endpoint.OAuth2AuthorizationRequest;
import org.springframework.security.oauth2.core.oidc.user.OidcUser;
import org.springframework.security.web.csrf.CookieCsrfTokenRepository;
import org.springframework.stereotype.Component;

/**
 * Signing in by the house's OpenID Connect provider (OpenID Connect Core 1.0, authorization code with PKCE, RFC 7636), where
 * {@code panelbook.sign-in.oidc.*} names one. The provider is asked what it offers when somebody first comes in by it, not before: the
 * service starts and lets others in while it is away. Nothing of the provider's is kept but who somebody is and what role that gives.
 */
@Component
class HouseProvider {

    private static final Logger LOG = LoggerFactory.getLogger(HouseProvider.class);

    /** The one provider, in addresses. */
    private static final String HOUSE = "house";

    private static final String START = "/sign-in/with";
    private static final String TO = "to";
    private static final Duration PATIENCE = Duration.ofMinutes(10);
    private static final int LONGEST_HOLDER = 200;

    private final SignInSettings settings;
    private final SignIns signIns;
    private final Sessions sessions;
    private final PageProblems people;
    private final CookieCsrfTokenRepository formTokens;
    private @Nullable ClientRegistration registration;

    HouseProvider(
            SignInSettings settings,
            SignIns signIns,
            Sessions sessions,
            PageProblems people,
            CookieCsrfTokenRepository formTokens) {
        this.settings = settings;
        this.signIns = signIns;
        this.sessions = sessions;
        this.people = people;
        this.formTokens = formTokens;
    }

    /** Adds the way by the provider to the pages; nothing where there is no provider. */
    void into(HttpSecurity http) {
        var oidc = settings.oidc();
        if (oidc == null) {
            return;
        }
        ClientRegistrationRepository registrations = id -> id.equals(HOUSE) ? registration(oidc) : null;
        var users = new OidcUserService();
        // who somebody is stands in the signed ID token
        users.setRetrieveUserInfo(request -> false);
        http.oauth2Login(login -> login.clientRegistrationRepository(registrations)
                .authorizedClientRepository(new Forgetful())
                .loginPage("/sign-in")
                .authorizationEndpoint(start -> start.authorizationRequestResolver(resolver(registrations)))
                .redirectionEndpoint(back -> back.baseUri("/sign-in/back/*"))
                .userInfoEndpoint(info -> info.oidcUserService(users))
                .successHandler((request, response, authentication) -> enter(oidc, request, response, authentication))
                .failureHandler((request, response, failure) -> {
                    LOG.warn("Nobody came in by the provider {}: {}", oidc.issuer(), failure.getMessage());
                    refuse(
                            request,
                            response,
                            null,
                            "The sign-in of the house did not vouch for you. Try again; if it happens"
                                    + " again, tell an engineer of your facility.");
                })
                .addObjectPostProcessor(new ObjectPostProcessor<OAuth2AuthorizationRequestRedirectFilter>() {
                    @Override
                    public <O extends OAuth2AuthorizationRequestRedirectFilter> O postProcess(O filter) {
                        filter.setAuthenticationFailureHandler((request, response, failure) -> {
                            LOG.warn("The provider {} cannot be asked: {}", oidc.issuer(), failure.getMessage());
                            people.notIn(
                                    request,
                                    response,
                                    503,
                                    "The sign-in of the house cannot be reached at this moment."
                                            + " Try again later, or sign in with a password or a token.");
                        });
                        return filter;
                    }
                }));
    }

    private synchronized ClientRegistration registration(SignInSettings.Oidc oidc) {
        if (registration == null) {
            registration = ClientRegistrations.fromIssuerLocation(String.valueOf(oidc.issuer()))
                    .registrationId(HOUSE)
                    .clientId(String.valueOf(oidc.clientId()))
                    .clientSecret(String.valueOf(oidc.clientSecret()))
                    .scope(oidc.scopes())
                    .redirectUri("{baseUrl}/sign-in/back/{registrationId}")
                    .build();
        }
        return registration;
    }

    /** Keeps the page that was asked for, until somebody comes back from the provider. */
    private static OAuth2AuthorizationRequestResolver resolver(ClientRegistrationRepository registrations) {
        var library = new DefaultOAuth2AuthorizationRequestResolver(registrations, START);
        library.setAuthorizationRequestCustomizer(OAuth2AuthorizationRequestCustomizers.withPkce());
        return new OAuth2AuthorizationRequestResolver() {
            @Override
            public @Nullable OAuth2AuthorizationRequest resolve(HttpServletRequest request) {
                return keepPage(request, library.resolve(request));
            }

            @Override
            public @Nullable OAuth2AuthorizationRequest resolve(HttpServletRequest request, String registration) {
                return keepPage(request, library.resolve(request, registration));
            }
        };
    }

    private static @Nullable OAuth2AuthorizationRequest keepPage(
            HttpServletRequest request, @Nullable OAuth2AuthorizationRequest asked) {
        if (asked != null) {
            var session = request.getSession(true);
            session.setAttribute(TO, Places.page(request.getParameter(TO)));
            if (session.isNew()) {
                session.setMaxInactiveInterval((int) PATIENCE.toSeconds());
            }
        }
        return asked;
    }

    private void enter(
            SignInSettings.Oidc oidc,
            HttpServletRequest request,
            HttpServletResponse response,
            Authentication authentication) {
        var user = (OidcUser) Objects.requireNonNull(authentication.getPrincipal());
        var holder = holder(oidc, user);
        var role = new ProviderRoles(oidc).of(user.getIdToken().getClaims());
        if (role.isEmpty()) {
            refuse(
                    request,
                    response,
                    holder,
                    "The sign-in of the house knows you as " + holder
                            + ", but that gives you no role here. An engineer of your facility can say who has which role.");
            return;
        }
        var session = request.getSession(false);
        var page = Places.page(session == null ? null : (String) session.getAttribute(TO));
        var subject = user.getIssuer() + " " + user.getSubject();
        sessions.begin(request, signIns.withProvider(subject, holder, role.get(), request.getRemoteAddr()));
        formTokens.saveToken(null, request, response);
        Places.go(request, response, page);
    }

    private void refuse(
            HttpServletRequest request, HttpServletResponse response, @Nullable String holder, String words) {
        signIns.refusedWithProvider(holder, request.getRemoteAddr());
        sessions.end(request);
        people.notIn(request, response, 403, words);
    }

    private static String holder(SignInSettings.Oidc oidc, OidcUser user) {
        var named = user.getClaimAsString(oidc.holderClaim());
        var holder = (named == null || named.isBlank() ? String.valueOf(user.getSubject()) : named).strip();
        return holder.substring(0, Math.min(holder.length(), LONGEST_HOLDER));
    }

    /** What the provider would let this service do in somebody's name is not needed, and so not kept. */
    private static final class Forgetful implements OAuth2AuthorizedClientRepository {

        @Override
        public <T extends OAuth2AuthorizedClient> @Nullable T loadAuthorizedClient(
                String registration, Authentication principal, HttpServletRequest request) {
            return null;
        }

        @Override
        public void saveAuthorizedClient(
                OAuth2AuthorizedClient client,
                Authentication principal,
                HttpServletRequest request,
                HttpServletResponse response) {
            // see above
        }

        @Override
        public void removeAuthorizedClient(
                String registration,
                Authentication principal,
                HttpServletRequest request,
                HttpServletResponse response) {
            // nothing was kept
        }
    }
}
