package panelbook.app.notifying;

import java.util.Map;
import org.springframework.stereotype.Component;
import panelbook.app.rest.ConstraintWords;

/** What the database's refusals mean for channels. */
@Component
class NotifyingWords implements ConstraintWords {

    private static final String TWICE = "The same draft came twice at the same moment: send it again.";

    @Override
    public Map<String, String> words() {
        return Map.of(
                "channel_name_key",
                "There is a channel of this name already, perhaps a retired one: choose another name.",
                "channel_pkey",
                TWICE,
                "quiet_period_pkey",
                TWICE);
    }
}
