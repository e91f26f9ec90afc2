package panelbook.app.planning;

import java.util.Map;
import org.springframework.stereotype.Component;
import panelbook.app.rest.ConstraintWords;

/** What the database's refusals mean for visits. */
@Component
class PlanWords implements ConstraintWords {

    @Override
    public Map<String, String> words() {
        return Map.of(
                "calibrator_makes_one_visit_at_a_time",
                "The calibrator has another visit at that time.",
                "room_has_one_visit_at_a_time",
                "The room has another visit at that time, warm-up included.",
                "plan_pkey",
                "The same draft came twice at the same moment: send it again.");
    }
}
