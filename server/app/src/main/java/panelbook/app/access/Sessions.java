package panelbook.app.access;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpSession;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.Optional;
import java.util.function.BooleanSupplier;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.springframework.session.FindByIndexNameSessionRepository;
import org.springframework.session.Session;
import org.springframework.stereotype.Component;
import tools.jackson.databind.json.JsonMapper;

/**
 * The sessions of people who signed in. They lie in the database, so that any instance knows them, and hold text only: what a session
 * says is written as JSON, which outlives an update of the service as serialized classes would not.
 *
 * <p>A session ends by our clock when nobody asked for a page for a while, at the latest after a day's work, and at once when what it was
 * opened with no longer holds.
 */
@Component
class Sessions {

    private static final String SIGNED_IN = "signed-in";
    private static final String SEEN = "seen";

    /** A page asks by itself with this header; that somebody left it open does not keep them signed in. */
    private static final String BY_ITSELF = "Panelbook-Refresh";

    private static final Duration SEEN_STEP = Duration.ofMinutes(1);

    private final JsonMapper json;
    private final Clock clock;
    private final SignIns signIns;
    private final SignInSettings settings;
    private final FindByIndexNameSessionRepository<? extends Session> kept;

    Sessions(
            JsonMapper json,
            Clock clock,
            SignIns signIns,
            SignInSettings settings,
            FindByIndexNameSessionRepository<? extends Session> kept) {
        this.json = json;
        this.clock = clock;
        this.signIns = signIns;
        this.settings = settings;
        this.kept = kept;
    }

    /** A session of a new id, whatever session the request came with: that one might be known to somebody else. */
    void begin(HttpServletRequest request, SignedIn signedIn) {
        end(request);
        var session = request.getSession(true);
        session.setAttribute(SIGNED_IN, json.writeValueAsString(signedIn));
        session.setAttribute(SEEN, signedIn.at().toString());
        session.setAttribute(
                FindByIndexNameSessionRepository.PRINCIPAL_NAME_INDEX_NAME, signedIn.way() + " " + signedIn.id());
    }

    /** Ends the session of a request, if it has one. */
    void end(HttpServletRequest request) {
        var session = request.getSession(false);
        if (session != null) {
            session.invalidate();
        }
    }

    /** Who a request comes from, by its session. */
    Optional<Caller> caller(HttpServletRequest request) {
        var session = request.getSession(false);
        if (session == null || session.getAttribute(SIGNED_IN) == null) {
            return Optional.empty();
        }
        var caller = caller(name -> (String) session.getAttribute(name));
        if (caller.isEmpty()) {
            session.invalidate();
        } else if (request.getHeader(BY_ITSELF) == null) {
            see(session);
        }
        return caller;
    }

    /** Asks, whenever it is called, whether the session of this request still stands; to be called after the request too. */
    BooleanSupplier watch(HttpServletRequest request) {
        var session = request.getSession(false);
        if (session == null) {
            return () -> false;
        }
        var id = session.getId();
        return () -> {
            var now = kept.findById(id);
            return now != null && caller(name -> now.<String>getAttribute(name)).isPresent();
        };
    }

    private Optional<Caller> caller(Function<String, @Nullable String> attributes) {
        var signedIn = json.readValue(attributes.apply(SIGNED_IN), SignedIn.class);
        var seen = Instant.parse(attributes.apply(SEEN));
        var now = clock.instant();
        var over = !now.isBefore(seen.plus(settings.idle()))
                || !now.isBefore(signedIn.at().plus(settings.atMost()));
        return over ? Optional.empty() : signIns.stillIn(signedIn);
    }

    /** Not at each request, since each time is a row written. */
    private void see(HttpSession session) {
        var now = clock.instant();
        if (now.isAfter(Instant.parse((String) session.getAttribute(SEEN)).plus(SEEN_STEP))) {
            session.setAttribute(SEEN, now.toString());
        }
    }
}
