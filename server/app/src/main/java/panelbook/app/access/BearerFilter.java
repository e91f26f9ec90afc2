package panelbook.app.access;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.web.filter.OncePerRequestFilter;
import panelbook.app.rest.Refusal;

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
                var token = tokens.authenticate(secret);
                new Caller(token.id(), token.holder(), token.role()).enter(token);
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

    /** Whether a request names its sender by a token; a page of somebody else's cannot make a browser send that. */
    static boolean carriesToken(HttpServletRequest request) {
        return secret(request.getHeader(HttpHeaders.AUTHORIZATION)) != null;
    }
}
