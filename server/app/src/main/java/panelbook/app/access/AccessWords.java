package panelbook.app.access;

import java.util.Map;
import org.springframework.stereotype.Component;
import panelbook.app.rest.ConstraintWords;

/** What the database refuses of accounts. */
@Component
class AccessWords implements ConstraintWords {

    @Override
    public Map<String, String> words() {
        return Map.of(
                "account_name",
                "Somebody signs in by this name already: choose another one, or retire that account first.");
    }
}
