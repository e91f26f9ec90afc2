package panelbook.app.planning.crew;

import java.util.HashMap;
import java.util.Map;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * How long work took in past visits: a recalibration from the first as-found run of a preset to the as-left run that follows
 * within {@value #MOST_HOURS} hours; a match from the opening of its story to its sign-off, likewise.
 */
@Component
class LearnedDurations {

    static final int MOST_HOURS = 8;

    /** Fewer visits than these teach nothing: one that was interrupted would be the rule. */
    static final int LEAST_VISITS = 3;

    /** Of a model only so many of the latest count: crews and tools change. */
    private static final int LATEST = 20;

    private static final String RECALIBRATIONS = """
            select d.model, l.taken_at as at, extract(epoch from l.taken_at - f.taken_at) / 60 as minutes
            from counted_run l
            join preset p on p.id = l.preset_id
            join display d on d.id = p.display_id
            cross join lateral (
                select min(f.taken_at) as taken_at from counted_run f
                where f.preset_id = l.preset_id and f.purpose = 'as-found' and f.taken_at < l.taken_at
                  and f.taken_at >= l.taken_at - make_interval(hours => :hours)
                  and not exists (select from counted_run b where b.preset_id = l.preset_id and b.purpose = 'as-left'
                                  and b.taken_at > f.taken_at and b.taken_at < l.taken_at)) f
            where l.purpose = 'as-left' and f.taken_at is not null
            """;

    private static final String MATCHES = """
            select d.model, m.signed_at as at, extract(epoch from m.signed_at - s.opened_at) / 60 as minutes
            from counted_match m
            join match_story s on s.id = m.story_id
            join preset p on p.id = m.follower_preset_id
            join display d on d.id = p.display_id
            where m.signed_at > s.opened_at and m.signed_at <= s.opened_at + make_interval(hours => :hours)
            """;

    /**
     * What past visits show.
     *
     * @param minutes median, rounded up to whole minutes
     */
    record Learned(int visits, int minutes) {

        boolean enough() {
            return visits >= LEAST_VISITS;
        }
    }

    private final JdbcClient jdbc;

    LearnedDurations(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** By model; models that no visit shows are left out. */
    Map<String, Learned> recalibrations() {
        return byModel(RECALIBRATIONS);
    }

    /** By the follower's model; models that no visit shows are left out. */
    Map<String, Learned> matches() {
        return byModel(MATCHES);
    }

    private Map<String, Learned> byModel(String took) {
        var found = new HashMap<String, Learned>();
        jdbc.sql("""
                        select model, count(*) as visits,
                               ceil(percentile_cont(0.5) within group (order by minutes)) as minutes
                        from (select t.*, row_number() over (partition by model order by at desc) as latest
                              from (%s) t) ranked
                        where latest <= :latest group by model
                        """.formatted(took))
                .param("hours", MOST_HOURS)
                .param("latest", LATEST)
                .query(row -> {
                    found.put(row.getString("model"), new Learned(row.getInt("visits"), row.getInt("minutes")));
                });
        return found;
    }
}
