package panelbook.app.fleet;

import java.util.Map;
import org.springframework.stereotype.Component;
import panelbook.app.rest.ConstraintWords;

/** What the database's refusals mean in the fleet. */
@Component
class FleetWords implements ConstraintWords {

    private static final String TWICE = "The same draft came twice at the same moment: send it again.";

    @Override
    public Map<String, String> words() {
        return Map.ofEntries(
                Map.entry("facility_name_key", taken("facility", "")),
                Map.entry("room_facility_id_name_key", taken("room", " in this facility")),
                Map.entry("display_facility_id_name_key", taken("display", " in this facility")),
                Map.entry("preset_display_id_name_key", taken("preset", " on this display")),
                Map.entry("target_name_key", taken("target", "")),
                Map.entry("tolerance_set_name_key", taken("tolerance set", "")),
                Map.entry("facility_pkey", TWICE),
                Map.entry("room_pkey", TWICE),
                Map.entry("display_pkey", TWICE),
                Map.entry("display_stay_pkey", TWICE),
                Map.entry("preset_pkey", TWICE),
                Map.entry("target_pkey", TWICE),
                Map.entry("tolerance_set_pkey", TWICE),
                Map.entry(
                        "display_stands_in_one_room_at_a_time",
                        "The display stood in another room at that time: a display stands in one room at a time."),
                Map.entry(
                        "room_has_one_hero_per_target",
                        "The room had another hero for the target at that time: give a later time."));
    }

    private static String taken(String what, String where) {
        return "There is a " + what + " of this name" + where + " already, perhaps a retired one: choose another name.";
    }
}
