package panelbook.app.access;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.authority.SimpleGrantedAuthority;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.filter.OncePerRequestFilter;
import panelbook.app.rest.Refusal;
import panelbook.wire.Token;

/** Knows the caller by the bearer token of the request. Nothing is kept between requests: a revoked token stops at once. */
final class BearerFilter extends OncePerRequestFilter {

    private static final String SCHEME = "Bearer ";

    private final Tokens tokens;
    private final AccessProblems problems;

    BearerFilter(Tokens tokens, AccessProblems problems) {
        this.tokens = tokens;
        this.problems = problems;
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        var secret = secret(request.getHeader(HttpHeaders.AUTHORIZATION));
        if (secret != null) {
            try {
                enter(tokens.authenticate(secret));
            } catch (Refusal refusal) {
                problems.unauthenticated(response, refusal);
                return;
            }
        }
        chain.doFilter(request, response);
    }

    private static @Nullable String secret(@Nullable String header) {
        return header != null && header.regionMatches(true, 0, SCHEME, 0, SCHEME.length())
                ? header.substring(SCHEME.length()).strip()
                : null;
    }

    private static void enter(Token token) {
        var caller = new Caller(token.id(), token.holder(), token.role());
        var authority = new SimpleGrantedAuthority("ROLE_" + token.role().name());
        var context = SecurityContextHolder.createEmptyContext();
        var authentication = UsernamePasswordAuthenticationToken.authenticated(caller, null, List.of(authority));
        authentication.setDetails(token);
        context.setAuthentication(authentication);
        SecurityContextHolder.setContext(context);
    }
}
