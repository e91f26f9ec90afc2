package panelbook.app.assessment;

import java.util.EnumMap;
import java.util.Map;
import java.util.UUID;
import java.util.concurrent.ConcurrentHashMap;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.database.Rows;
import panelbook.app.rest.Words;
import panelbook.wire.Basis;
import panelbook.wire.Metric;

/** Revisions of tolerance sets. They never change once they are there, so each is read once. */
@Component
class ToleranceBook {

    private final JdbcClient jdbc;
    private final Map<Key, Tolerances> read = new ConcurrentHashMap<>();

    ToleranceBook(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Tolerances of(UUID setId, long revision) {
        var key = new Key(setId, revision);
        var known = read.get(key);
        if (known == null) {
            known = read(key);
            read.put(key, known);
        }
        return known;
    }

    private Tolerances read(Key key) {
        var limits = new EnumMap<Metric, Tolerances.Limit>(Metric.class);
        jdbc.sql("select * from tolerance where tolerance_set_id = :set and revision = :revision")
                .param("set", key.setId())
                .param("revision", key.revision())
                .query(row -> {
                    limits.put(
                            Words.of(Metric.class, row.getString("metric")),
                            new Tolerances.Limit(
                                    row.getDouble("limit_value"),
                                    Words.of(Basis.class, row.getString("basis")),
                                    row.getString("document"),
                                    row.getString("clause")));
                });
        return jdbc.sql("""
                        select s.name, r.* from tolerance_set_revision r join tolerance_set s on s.id = r.tolerance_set_id
                        where r.tolerance_set_id = :set and r.revision = :revision
                        """)
                .param("set", key.setId())
                .param("revision", key.revision())
                .query((row, n) -> new Tolerances(
                        key.setId(),
                        row.getString("name"),
                        key.revision(),
                        Rows.intOrNull(row, "recalibration_days"),
                        Rows.intOrNull(row, "recalibration_panel_hours"),
                        row.getDouble("hysteresis"),
                        row.getDouble("conformance_probability"),
                        Map.copyOf(limits)))
                .single();
    }

    private record Key(UUID setId, long revision) {}
}
