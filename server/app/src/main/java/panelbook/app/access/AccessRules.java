package panelbook.app.access;

import static org.springframework.http.HttpMethod.GET;
import static org.springframework.http.HttpMethod.HEAD;
import static org.springframework.http.HttpMethod.POST;
import static org.springframework.http.HttpMethod.PUT;

import jakarta.servlet.DispatcherType;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.security.config.Customizer;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AbstractHttpConfigurer;
import org.springframework.security.config.annotation.web.configurers.AuthorizeHttpRequestsConfigurer;
import org.springframework.security.web.SecurityFilterChain;
import org.springframework.security.web.authentication.UsernamePasswordAuthenticationFilter;
import org.springframework.security.web.context.RequestAttributeSecurityContextRepository;

/** Who may call what by a token. What no rule names is denied. Pages have rules of their own, {@link PageRules}. */
@Configuration(proxyBeanMethods = false)
class AccessRules {

    private static final String API = "/api/v1";
    private static final String ENGINEER = "ENGINEER";
    private static final String CALIBRATOR = "CALIBRATOR";
    private static final String MANAGER = "MANAGER";
    private static final String PROBE = "PROBE";

    /** What a probe may read: the things that an upload names. */
    private static final String[] NAMED_BY_AN_UPLOAD = {
        "/presets", "/targets", "/tolerance-sets", "/instruments", "/displays", "/rooms", "/facilities"
    };

    @Bean
    SecurityFilterChain filterChain(HttpSecurity http, Tokens tokens, AccessProblems problems) {
        // no cookies carry anything here, so there is nothing that a foreign page could ride on: not even the session
        // of the board,
        // which this chain never looks at
        return http.csrf(AbstractHttpConfigurer::disable)
                .httpBasic(AbstractHttpConfigurer::disable)
                .formLogin(AbstractHttpConfigurer::disable)
                .logout(AbstractHttpConfigurer::disable)
                .requestCache(AbstractHttpConfigurer::disable)
                .headers(Customizer.withDefaults())
                .anonymous(Strangers::known)
                .sessionManagement(AbstractHttpConfigurer::disable)
                .securityContext(
                        context -> context.securityContextRepository(new RequestAttributeSecurityContextRepository()))
                .exceptionHandling(
                        handling -> handling.authenticationEntryPoint(problems).accessDeniedHandler(problems))
                .addFilterBefore(new BearerFilter(tokens, problems), UsernamePasswordAuthenticationFilter.class)
                .authorizeHttpRequests(AccessRules::rules)
                .build();
    }

    private static void rules(
            AuthorizeHttpRequestsConfigurer<HttpSecurity>.AuthorizationManagerRequestMatcherRegistry rules) {
        // the request that led to these was judged already
        rules.dispatcherTypeMatchers(DispatcherType.ASYNC, DispatcherType.ERROR).permitAll();
        rules.requestMatchers(GET, "/actuator/health", "/actuator/health/**").permitAll();
        rules.requestMatchers(GET, "/actuator/prometheus").hasAnyRole(ENGINEER, MANAGER);
        rules.requestMatchers(GET, "/v3/api-docs", "/v3/api-docs/**", "/v3/api-docs.yaml")
                .permitAll();

        // the secret in the address is the key
        rules.requestMatchers(GET, "/calendars/*").permitAll();
        rules.requestMatchers(HEAD, "/calendars/*").permitAll();

        // managers read, and a proof is reading: it changes nothing that it tells of, and only notes that it was handed
        // out
        rules.requestMatchers(POST, API + "/rooms/{id}/proofs").hasAnyRole(ENGINEER, CALIBRATOR, MANAGER);
        rules.requestMatchers(POST, API + "/proof-checks").authenticated();

        rules.requestMatchers(API + "/tokens", API + "/tokens/**").hasRole(ENGINEER);
        rules.requestMatchers(API + "/accounts", API + "/accounts/**").hasRole(ENGINEER);
        rules.requestMatchers(API + "/channels", API + "/channels/**").hasRole(ENGINEER);
        rules.requestMatchers(GET, API + "/audit-entries").hasAnyRole(ENGINEER, MANAGER);
        rules.requestMatchers(GET, API + "/identity").authenticated();

        rules.requestMatchers(POST, API + "/runs").hasAnyRole(PROBE, CALIBRATOR, ENGINEER);
        rules.requestMatchers(GET, API + "/runs/{id}/verdict").authenticated();
        rules.requestMatchers(
                        POST,
                        API + "/presets/{id}/baselines",
                        API + "/runs/{id}/withdrawal",
                        API + "/matches",
                        API + "/match-stories",
                        API + "/match-stories/{id}/steps",
                        API + "/match-stories/{id}/sign-off",
                        API + "/match-stories/{id}/giving-up",
                        API + "/advice",
                        API + "/advice/{id}/retirement",
                        API + "/matches/{id}/withdrawal",
                        API + "/alerts/{id}/acknowledgement",
                        API + "/alerts/{id}/closure",
                        API + "/quiet-periods",
                        API + "/quiet-periods/{id}/end",
                        API + "/displays/{id}/panel-hours",
                        API + "/panel-hours",
                        API + "/panel-hours-questions/{id}/answer",
                        API + "/displays/{id}/quirks",
                        API + "/quirks/{id}/settlement",
                        API + "/instruments/{id}/corrections",
                        API + "/instruments/{id}/corrections/preview",
                        API + "/instruments/{id}/corrections/{correction}/withdrawal",
                        API + "/displays/{id}/control-ranges",
                        API + "/visits",
                        API + "/visits/{id}/confirmation",
                        API + "/visits/{id}/move",
                        API + "/visits/{id}/pin",
                        API + "/visits/{id}/done",
                        API + "/visits/{id}/drop")
                .hasAnyRole(CALIBRATOR, ENGINEER);
        rules.requestMatchers(PUT, API + "/advice/{id}").hasAnyRole(CALIBRATOR, ENGINEER);
        for (var things : NAMED_BY_AN_UPLOAD) {
            rules.requestMatchers(GET, API + things, API + things + "/{id}").authenticated();
        }
        rules.requestMatchers(GET, API + "/**").hasAnyRole(ENGINEER, CALIBRATOR, MANAGER);
        rules.requestMatchers(HEAD, API + "/**").hasAnyRole(ENGINEER, CALIBRATOR, MANAGER);
        rules.requestMatchers(API + "/**").hasRole(ENGINEER);
        rules.anyRequest().denyAll();
    }
}
