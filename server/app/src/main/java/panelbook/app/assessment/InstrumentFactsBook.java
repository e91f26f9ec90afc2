package panelbook.app.assessment;

import java.time.LocalDate;
import java.util.Collection;
import java.util.HashMap;
import java.util.Map;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;

/** Finds the figures of instruments. */
@Component
class InstrumentFactsBook {

    private final JdbcClient jdbc;

    InstrumentFactsBook(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Map<UUID, InstrumentFacts> findAll(Collection<UUID> ids) {
        var found = new HashMap<UUID, InstrumentFacts>();
        jdbc.sql("""
                        select i.*, c.until from instrument i
                        left join lateral (select max(expires_on) as until from instrument_certificate
                                           where instrument_id = i.id) c on true
                        where i.id = any (:ids)
                        """)
                .param("ids", ids.toArray(new UUID[0]))
                .query((row, n) -> new InstrumentFacts(
                        Rows.id(row, "id"),
                        row.getString("name"),
                        row.getDouble("luminance_uncertainty"),
                        row.getDouble("luminance_repeatability"),
                        row.getDouble("chromaticity_uncertainty"),
                        row.getDouble("chromaticity_repeatability"),
                        row.getDouble("luminance_floor"),
                        row.getObject("until", LocalDate.class)))
                .list()
                .forEach(facts -> found.put(facts.id(), facts));
        return found;
    }
}
