package panelbook.app.access;

import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.web.filter.OncePerRequestFilter;

/**
 * Knows the caller of a page by the session where no token came with the request, and tells templates who it is: {@code signedInAs}, a
 * {@link Caller}, and {@code bySession}, whether there is a session to sign out of.
 */
final class SignedInFilter extends OncePerRequestFilter {

    private final Sessions sessions;

    SignedInFilter(Sessions sessions) {
        this.sessions = sessions;
    }

    @Override
    protected boolean shouldNotFilter(HttpServletRequest request) {
        // files that are the same for all: asking who wants them would cost a select each
        return request.getServletPath().startsWith("/style/")
                || request.getServletPath().startsWith("/script/");
    }

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        var byToken = Caller.find().isPresent();
        if (!byToken) {
            sessions.caller(request).ifPresent(caller -> caller.enter(null));
        }
        Caller.find().ifPresent(caller -> {
            request.setAttribute("signedInAs", caller);
            request.setAttribute("bySession", !byToken);
        });
        chain.doFilter(request, response);
    }
}
