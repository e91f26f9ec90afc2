package panelbook.app.board;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.TypeMismatchException;
import org.springframework.core.annotation.Order;
import org.springframework.http.HttpStatusCode;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.servlet.ModelAndView;
import panelbook.app.access.Caller;
import panelbook.app.fleet.Directory;
import panelbook.app.rest.Refusal;
import panelbook.wire.Facility;
import panelbook.wire.Role;

/** What the frame around every page shows, and the page that tells why another cannot be shown. */
@ControllerAdvice(annotations = BoardPage.class)
@Order(-1) // before the one that answers programs
class BoardFrame {

    private final Directory directory;
    private final Clock clock;

    BoardFrame(Directory directory, Clock clock) {
        this.directory = directory;
        this.clock = clock;
    }

    /**
     * What the frame shows.
     *
     * @param now when the page was asked for
     * @param facilities those in use, by name
     * @param caller who is signed in; null when nobody is
     */
    record Frame(
            Instant now,
            List<Facility> facilities,
            @Nullable Caller caller) {

        /** Whether whoever is signed in may acknowledge and close alerts. */
        public boolean mayAnswerAlerts() {
            return is(Role.ENGINEER) || is(Role.CALIBRATOR);
        }

        private boolean is(Role role) {
            return caller != null && caller.role() == role;
        }
    }

    @ModelAttribute("frame")
    Frame frame() {
        return new Frame(clock.instant(), directory.facilities(), Caller.find().orElse(null));
    }

    @ModelAttribute("say")
    BoardWords say() {
        return new BoardWords(clock.instant());
    }

    @ModelAttribute("measured")
    MeasuredWords measured() {
        return new MeasuredWords();
    }

    /** Which link of the navigation leads to where one is. */
    @ModelAttribute("section")
    String section(HttpServletRequest request) {
        var parts = request.getRequestURI()
                .substring(request.getContextPath().length())
                .split("/");
        var name = parts.length < 3 ? "" : parts[2];
        return switch (name) {
            case "alerts", "due", "plan", "operators" -> name;
            case "visits" -> "plan";
            default -> "rooms";
        };
    }

    @ExceptionHandler
    ModelAndView refused(Refusal refusal) {
        return trouble(refusal.kind().status(), refusal.kind().title(), String.valueOf(refusal.getMessage()));
    }

    @ExceptionHandler
    ModelAndView unreadable(TypeMismatchException mismatch) {
        return trouble(
                400,
                Refusal.Kind.INVALID.title(),
                "\"" + mismatch.getValue() + "\" in the address is not of the form that is asked for here: "
                        + "follow a link of the board, or fill in the form again.");
    }

    @ExceptionHandler
    ModelAndView missing(MissingServletRequestParameterException missing) {
        return trouble(
                400, Refusal.Kind.INVALID.title(), "\"" + missing.getParameterName() + "\" is needed: fill it in.");
    }

    private ModelAndView trouble(int status, String title, String text) {
        var page = new ModelAndView("trouble");
        page.setStatus(HttpStatusCode.valueOf(status));
        page.addObject("frame", frame());
        page.addObject("say", say());
        page.addObject("section", "");
        page.addObject("heading", title);
        page.addObject("text", text);
        return page;
    }
}
