package panelbook.app.planning.crew;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Refusal;
import panelbook.wire.TravelTime;
import panelbook.wire.TravelTimeDraft;

/** How long it takes from one facility to another. */
@Component
public class TravelTimes {

    private static final int MOST_MINUTES = 2880;

    // the database keeps each pair once, the lesser id first; people read the earlier name first
    private static final String SELECT = """
            select f.id as one_id, f.name as one_name, g.id as other_id, g.name as other_name, t.minutes,
                   coalesce(t.version, 0) as version
            from facility f
            join facility g on (f.name, f.id) < (g.name, g.id)
            left join travel_time t on t.one_facility_id = least(f.id, g.id) and t.other_facility_id = greatest(f.id, g.id)
            """;

    private final JdbcClient jdbc;

    TravelTimes(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Says, corrects or takes back how long it takes. */
    @Transactional
    TravelTime set(UUID one, UUID other, TravelTimeDraft draft, long expectedVersion) {
        var checks = new Checks().that(!one.equals(other), "other", "Must be another facility than the first.");
        if (draft.minutes() != null) {
            checks.range("/minutes", draft.minutes(), 0, MOST_MINUTES);
        }
        checks.refuse();
        get(one, other);
        if (write(one, other, draft.minutes(), expectedVersion) == 0) {
            throw Etags.stale();
        }
        return get(one, other);
    }

    private int write(UUID one, UUID other, @Nullable Integer minutes, long expectedVersion) {
        var sql = VersionedFigure.sql(
                minutes,
                expectedVersion,
                """
                insert into travel_time (one_facility_id, other_facility_id, minutes, version)
                values (least(:one, :other), greatest(:one, :other), :minutes, 1) on conflict do nothing""",
                "update travel_time set minutes = :minutes, version = version + 1 where %s",
                "delete from travel_time where %s",
                "one_facility_id = least(:one, :other) and other_facility_id = greatest(:one, :other)");
        return VersionedFigure.run(jdbc.sql(sql).param("one", one).param("other", other), minutes, expectedVersion);
    }

    /** All pairs of facilities in use, by name. */
    @Transactional(readOnly = true)
    public List<TravelTime> list() {
        return new Query(SELECT)
                .where("f.retired_at is null and g.retired_at is null")
                .list(jdbc, TravelTimes::travelTime, "f.name, g.name, f.id, g.id");
    }

    private TravelTime get(UUID one, UUID other) {
        return new Query(SELECT)
                .where("f.id in (:one, :other) and g.id in (:one, :other)", "one", one)
                .bind("other", other)
                .one(jdbc, TravelTimes::travelTime)
                .orElseThrow(() -> Refusal.notFound("pair of facilities", other));
    }

    private static TravelTime travelTime(ResultSet row, int n) throws SQLException {
        return new TravelTime(
                Rows.id(row, "one_id"),
                row.getString("one_name"),
                Rows.id(row, "other_id"),
                row.getString("other_name"),
                Rows.intOrNull(row, "minutes"),
                row.getLong("version"));
    }
}
