package panelbook.app.access;

import jakarta.servlet.http.HttpServletRequest;
import java.util.function.BooleanSupplier;
import org.springframework.stereotype.Component;

/** Whether somebody whom the service let in still is, for answers that outlast their request. */
@Component
public class Presence {

    private final Tokens tokens;
    private final Sessions sessions;

    Presence(Tokens tokens, Sessions sessions) {
        this.tokens = tokens;
        this.sessions = sessions;
    }

    /**
     * Asks, each time, whether the session or the token that this request came with still holds; a select or two. Must be made while
     * the request is under way, and may be asked from any thread afterwards.
     */
    public BooleanSupplier of(HttpServletRequest request) {
        if (BearerFilter.carriesToken(request)) {
            var token = Caller.current().id();
            return () -> tokens.holding(token).isPresent();
        }
        return sessions.watch(request);
    }
}
