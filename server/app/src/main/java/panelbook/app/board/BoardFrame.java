package panelbook.app.board;

import jakarta.servlet.http.HttpServletRequest;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.ControllerAdvice;
import org.springframework.web.bind.annotation.ModelAttribute;
import panelbook.app.access.Caller;
import panelbook.app.fleet.Directory;
import panelbook.wire.Facility;
import panelbook.wire.Role;

/** What the frame around every page shows. */
@ControllerAdvice(annotations = BoardPage.class)
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
}
