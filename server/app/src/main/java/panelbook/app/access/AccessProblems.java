package panelbook.app.access;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import org.springframework.http.HttpHeaders;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.security.web.access.AccessDeniedHandler;
import org.springframework.stereotype.Component;
import panelbook.app.rest.ProblemWriter;
import panelbook.app.rest.Refusal;

/** Says who may not come in, and why. */
@Component
class AccessProblems implements AuthenticationEntryPoint, AccessDeniedHandler {

    private final ProblemWriter writer;

    AccessProblems(ProblemWriter writer) {
        this.writer = writer;
    }

    @Override
    public void commence(HttpServletRequest request, HttpServletResponse response, AuthenticationException missing)
            throws IOException {
        unauthenticated(
                response,
                Refusal.of(
                        Refusal.Kind.UNAUTHENTICATED,
                        "Send your token as \"Authorization: Bearer TOKEN\". An engineer of your facility makes tokens."));
    }

    @Override
    public void handle(HttpServletRequest request, HttpServletResponse response, AccessDeniedException denied)
            throws IOException {
        var role = Caller.find().map(caller -> caller.role().toString()).orElse("this caller");
        writer.write(
                response,
                Refusal.of(
                        Refusal.Kind.FORBIDDEN,
                        "The role of your token, " + role + ", does not cover " + request.getMethod() + " "
                                + request.getRequestURI() + "."));
    }

    void unauthenticated(HttpServletResponse response, Refusal refusal) throws IOException {
        response.setHeader(HttpHeaders.WWW_AUTHENTICATE, "Bearer realm=\"panelbook\"");
        writer.write(response, refusal);
    }
}
