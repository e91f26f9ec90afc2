package panelbook.app.board;

import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import org.springframework.ui.Model;
import panelbook.app.rest.AnswersAsOf;
import panelbook.app.rest.Refusal;

/** A page of the book as it stood earlier. */
final class Past {

    /** The instant, as in the contract. */
    static final String PARAMETER = AnswersAsOf.PARAMETER;

    /** Day and time as people type them, by the clock of the place. */
    static final String TYPED = "stood-at";

    private Past() {}

    /**
     * Where the same page shows the book as it stood at what somebody typed.
     *
     * @throws Refusal when it is no day and time
     */
    static String redirect(String page, String typed, ZoneId zone) {
        try {
            var moment = LocalDateTime.parse(typed.strip().replace(' ', 'T'))
                    .atZone(zone)
                    .toInstant();
            return "redirect:" + page + "?" + PARAMETER + "=" + moment;
        } catch (DateTimeException none) {
            throw Refusal.invalid(TYPED, "\"" + typed + "\" is no day and time: write them like 2026-11-24T18:00.");
        }
    }

    /** Has the frame say that the page shows the past, where it does. */
    static void tell(Model model, String asOf, Instant at, String page) {
        if (!asOf.isBlank()) {
            model.addAttribute("past", at);
            model.addAttribute("present", page);
            model.addAttribute("asOf", at.toString());
        }
    }
}
