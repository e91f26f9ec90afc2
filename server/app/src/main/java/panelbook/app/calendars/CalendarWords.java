package panelbook.app.calendars;

import java.util.Map;
import org.springframework.stereotype.Component;
import panelbook.app.rest.ConstraintWords;

/** What the database's refusals mean in calendars. */
@Component
class CalendarWords implements ConstraintWords {

    @Override
    public Map<String, String> words() {
        return Map.of(
                "booking_source_name", "There is a calendar of this name for this room already: choose another name.",
                "calendar_feed_pkey",
                        "This calendar was opened already, and its address is shown only once: open another.",
                "booking_source_pkey", "The same draft came twice at the same moment: send it again.");
    }
}
