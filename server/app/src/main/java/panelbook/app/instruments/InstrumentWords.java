package panelbook.app.instruments;

import java.util.Map;
import org.springframework.stereotype.Component;
import panelbook.app.rest.ConstraintWords;

/** What the database's refusals mean for instruments. */
@Component
class InstrumentWords implements ConstraintWords {

    private static final String TWICE = "The same draft came twice at the same moment: send it again.";

    @Override
    public Map<String, String> words() {
        return Map.of(
                "instrument_name_key",
                "There is an instrument of this name already, perhaps a retired one: choose another name.",
                "instrument_certificate_instrument_id_number_key",
                "The instrument has a certificate of this number already, and a certificate once entered stays as it is.",
                "instrument_pkey",
                TWICE,
                "instrument_certificate_pkey",
                TWICE);
    }
}
