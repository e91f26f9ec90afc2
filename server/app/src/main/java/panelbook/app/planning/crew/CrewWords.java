package panelbook.app.planning.crew;

import java.util.Map;
import org.springframework.stereotype.Component;
import panelbook.app.rest.ConstraintWords;

/** What the database's refusals mean here. */
@Component
class CrewWords implements ConstraintWords {

    @Override
    public Map<String, String> words() {
        return Map.of(
                "calibrator_name_key",
                "There is a calibrator of this name already, perhaps a retired one: choose another name.");
    }
}
