package panelbook.app.access;

import static org.springframework.http.HttpMethod.GET;
import static org.springframework.http.HttpMethod.HEAD;
import static org.springframework.http.HttpMethod.POST;

import jakarta.servlet.DispatcherType;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.core.annotation.Order;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.annotation.web.configurers.AuthorizeHttpRequestsConfigurer;
import org.springframework.security.config.annotation.web.configurers.HeadersConfigurer;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.authentication.UsernamePasswordAuthenticationFilter;
import org.springframework.security.web.context.RequestAttributeSecurityContextRepository;
import org.springframework.security.web.csrf.CookieCsrfTokenRepository;
import org.springframework.security.web.header.writers.CrossOriginOpenerPolicyHeaderWriter.CrossOriginOpenerPolicy;
import org.springframework.security.web.header.writers.CrossOriginResourcePolicyHeaderWriter.CrossOriginResourcePolicy;
import org.springframework.security.web.header.writers.ReferrerPolicyHeaderWriter.ReferrerPolicy;

/**
 * Who may see which page, and what browsers are told about pages. People come by a session, programs and tests by a bearer token. The
 * token against forged requests lies in a cookie of its own, so that whoever only looks at the sign-in page needs no session.
 */
@Configuration(proxyBeanMethods = false)
@EnableConfigurationProperties(SignInSettings.class)
class PageRules {

    private static final String[] PAGES = {
        "/", "/board", "/board/**", "/sign-in", "/sign-in/**", "/sign-out", "/style/**", "/script/**"
    };

    /** Nothing from elsewhere, and nothing that stands in the page itself: what is smuggled into a page is neither run nor shown. */
    static final String CONTENT = String.join(
            "; ",
            List.of(
                    "default-src 'none'",
                    "script-src 'self'",
                    "style-src 'self'",
                    "img-src 'self'",
                    "connect-src 'self'",
                    "form-action 'self'",
                    "frame-ancestors 'none'",
                    "base-uri 'none'"));

    @Bean
    CookieCsrfTokenRepository formTokens(
            @Value("${server.servlet.session.cookie.secure:#{null}}") @Nullable Boolean secure) {
        var tokens = new CookieCsrfTokenRepository();
        tokens.setCookieName("panelbook-form");
        tokens.setCookieCustomizer(cookie -> {
            cookie.sameSite("Strict");
            if (secure != null) {
                cookie.secure(secure);
            }
        });
        return tokens;
    }

    @Bean
    @Order(1)
    SecurityFilterChain pages(
            HttpSecurity http,
            Tokens tokens,
            Sessions sessions,
            AccessProblems programs,
            PageProblems people,
            HouseProvider provider,
            CookieCsrfTokenRepository formTokens) {
        provider.into(http);
        return http.securityMatcher(PAGES)
                .csrf(csrf -> csrf.csrfTokenRepository(formTokens).ignoringRequestMatchers(BearerFilter::carriesToken))
                .httpBasic(AbstractHttpConfigurer::disable)
                .formLogin(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                .requestCache(AbstractHttpConfigurer::disable)
                .headers(PageRules::headers)
                // what a session holds is read by SignedInFilter alone, see Strangers
                .anonymous(Strangers::known)
                // it would take each request for a new sign-in and give the session and the token of forms new ids,
                // under the
                // feet of requests at the same time
                .sessionManagement(AbstractHttpConfigurer::disable)
                .securityContext(
                        context -> context.securityContextRepository(new RequestAttributeSecurityContextRepository()))
                .exceptionHandling(
                        handling -> handling.authenticationEntryPoint(people).accessDeniedHandler(people))
                .addFilterBefore(new BearerFilter(tokens, programs), UsernamePasswordAuthenticationFilter.class)
                .addFilterBefore(new SignedInFilter(sessions), UsernamePasswordAuthenticationFilter.class)
                .authorizeHttpRequests(PageRules::rules)
                .build();
    }

    private static void headers(HeadersConfigurer<HttpSecurity> headers) {
        headers.contentSecurityPolicy(policy -> policy.policyDirectives(CONTENT))
                .referrerPolicy(policy -> policy.policy(ReferrerPolicy.SAME_ORIGIN))
                .crossOriginOpenerPolicy(policy -> policy.policy(CrossOriginOpenerPolicy.SAME_ORIGIN))
                .crossOriginResourcePolicy(policy -> policy.policy(CrossOriginResourcePolicy.SAME_ORIGIN))
                // sent over TLS only; what else lies under the same name is for others to say
                .httpStrictTransportSecurity(policy -> policy.includeSubDomains(false));
    }

    private static void rules(
            AuthorizeHttpRequestsConfigurer<HttpSecurity>.AuthorizationManagerRequestMatcherRegistry rules) {
        // the request that led to these was judged already
        rules.dispatcherTypeMatchers(DispatcherType.ASYNC, DispatcherType.ERROR).permitAll();
        rules.requestMatchers(GET, "/", "/sign-in", "/sign-in/**", "/style/*", "/script/*")
                .permitAll();
        rules.requestMatchers(HEAD, "/", "/sign-in", "/style/*", "/script/*").permitAll();
        rules.requestMatchers(POST, "/sign-in", "/sign-out").permitAll();

        var engineer = "ENGINEER";
        var calibrator = "CALIBRATOR";
        var manager = "MANAGER";
        rules.requestMatchers(GET, "/board", "/board/**").hasAnyRole(engineer, calibrator, manager);
        rules.requestMatchers(HEAD, "/board", "/board/**").hasAnyRole(engineer, calibrator, manager);
        rules.requestMatchers(POST, "/board/password").hasAnyRole(engineer, calibrator, manager);
        // a proof is reading, too: it changes nothing that it tells of, and only notes that it was handed out
        rules.requestMatchers(POST, "/board/rooms/{id}/proof").hasAnyRole(engineer, calibrator, manager);
        // what a page changes is what these two may change by the contract; a manager reads
        rules.requestMatchers(POST, "/board/**").hasAnyRole(engineer, calibrator);
        rules.anyRequest().denyAll();
    }
}
