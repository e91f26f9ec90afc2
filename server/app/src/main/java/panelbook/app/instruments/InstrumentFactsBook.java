package panelbook.app.instruments;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;

/** Finds the figures of instruments. */
@Component
public class InstrumentFactsBook {

    private final JdbcClient jdbc;

    InstrumentFactsBook(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** The figures of instruments by id; unknown ids are left out. */
    public Map<UUID, InstrumentFacts> findAll(Collection<UUID> ids) {
        var found = new HashMap<UUID, InstrumentFacts>();
        var certificates = certificatesOf(ids);
        var corrections = correctionsOf(ids);
        jdbc.sql("select * from instrument where id = any (:ids)")
                .param("ids", ids.toArray(new UUID[0]))
                .query((row, n) -> new InstrumentFacts(
                        Rows.id(row, "id"),
                        row.getString("name"),
                        row.getDouble("luminance_uncertainty"),
                        row.getDouble("luminance_repeatability"),
                        row.getDouble("chromaticity_uncertainty"),
                        row.getDouble("chromaticity_repeatability"),
                        row.getDouble("luminance_floor"),
                        certificates.getOrDefault(Rows.id(row, "id"), List.of()),
                        corrections.getOrDefault(Rows.id(row, "id"), List.of())))
                .list()
                .forEach(facts -> found.put(facts.id(), facts));
        return found;
    }

    private Map<UUID, List<MeterCorrection>> correctionsOf(Collection<UUID> ids) {
        var found = new HashMap<UUID, List<MeterCorrection>>();
        jdbc.sql("""
                        select c.*, coalesce(d.name, c.model) as place
                        from instrument_correction c left join display d on d.id = c.display_id
                        where c.instrument_id = any (:ids)
                          and not exists (select 1 from instrument_correction_withdrawal w where w.correction_id = c.id)
                        """).param("ids", ids.toArray(new UUID[0])).query(row -> {
            found.computeIfAbsent(Rows.id(row, "instrument_id"), id -> new ArrayList<>())
                    .add(new MeterCorrection(
                            Rows.id(row, "id"),
                            Rows.idOrNull(row, "display_id"),
                            row.getString("place"),
                            row.getInt("version"),
                            CorrectionMatrix.of(row),
                            Rows.instantOrNull(row, "valid_from")));
        });
        return found;
    }

    private Map<UUID, List<InstrumentFacts.Certificate>> certificatesOf(Collection<UUID> ids) {
        var found = new HashMap<UUID, List<InstrumentFacts.Certificate>>();
        jdbc.sql(
                        "select instrument_id, issued_on, expires_on from instrument_certificate where instrument_id = any (:ids)")
                .param("ids", ids.toArray(new UUID[0]))
                .query(row -> {
                    found.computeIfAbsent(Rows.id(row, "instrument_id"), id -> new ArrayList<>())
                            .add(new InstrumentFacts.Certificate(
                                    row.getObject("issued_on", LocalDate.class),
                                    row.getObject("expires_on", LocalDate.class)));
                });
        return found;
    }
}
