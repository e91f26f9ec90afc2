package panelbook.app.planning.crew;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.planning.crew.LearnedDurations.Learned;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Words;
import panelbook.wire.DurationSource;
import panelbook.wire.Work;
import panelbook.wire.WorkDuration;
import panelbook.wire.WorkDurationDraft;

/** How long work takes: what somebody said of the model, else what past visits teach, else the figure of the house. */
@Component
public class WorkDurations {

    private static final int MOST_MINUTES = 1440;

    /** Common practice, no published source. */
    private static final Map<Work, Integer> COMMON_PRACTICE =
            Map.of(Work.WARM_UP, 30, Work.RECALIBRATION, 45, Work.MATCH, 30);

    private static final String MODELS = """
            select distinct model from display where retired_at is null
            union select model from work_duration where model is not null order by 1
            """;

    private record Key(@Nullable String model, Work work) {}

    private record Told(int minutes, long version) {}

    private final LearnedDurations learned;
    private final JdbcClient jdbc;

    WorkDurations(LearnedDurations learned, JdbcClient jdbc) {
        this.learned = learned;
        this.jdbc = jdbc;
    }

    /** All figures as they stand, to be asked for one after the other. */
    public final class Figures {

        private final Map<Key, Told> told = told();
        private final Map<String, Learned> recalibrations = learned.recalibrations();
        private final Map<String, Learned> matches = learned.matches();

        private Figures() {}

        /** How long it takes. */
        public WorkDuration of(@Nullable String model, Work work) {
            var own = told.get(new Key(model, work));
            var visits = model == null ? null : visits(work).get(model);
            var enough = visits != null && visits.enough() ? visits : null;
            var house = told.get(new Key(null, work));
            return new WorkDuration(
                    model,
                    work,
                    own != null
                            ? own.minutes()
                            : enough != null
                                    ? enough.minutes()
                                    : house != null
                                            ? house.minutes()
                                            : Objects.requireNonNull(COMMON_PRACTICE.get(work)),
                    source(model, own, enough, house),
                    own == null ? null : own.minutes(),
                    enough == null ? null : enough.minutes(),
                    visits == null ? 0 : visits.visits(),
                    own == null ? 0 : own.version());
        }

        private Map<String, Learned> visits(Work work) {
            return switch (work) {
                case RECALIBRATION -> recalibrations;
                case MATCH -> matches;
                case WARM_UP -> Map.of();
            };
        }
    }

    private static DurationSource source(
            @Nullable String model, @Nullable Told own, @Nullable Learned enough, @Nullable Told house) {
        if (own != null) {
            return model == null ? DurationSource.HOUSE : DurationSource.MODEL;
        }
        return enough != null
                ? DurationSource.LEARNED
                : house != null ? DurationSource.HOUSE : DurationSource.COMMON_PRACTICE;
    }

    /** The figures as they stand now. */
    public Figures figures() {
        return new Figures();
    }

    /** The figures of the house, then those of each model; of one model only, if one is named. */
    @Transactional(readOnly = true)
    List<WorkDuration> list(@Nullable String model) {
        var figures = figures();
        var list = new ArrayList<WorkDuration>();
        if (model == null) {
            add(list, figures, null);
            jdbc.sql(MODELS).query(String.class).list().forEach(each -> add(list, figures, each));
        } else {
            add(list, figures, model);
        }
        return list;
    }

    private static void add(List<WorkDuration> list, Figures figures, @Nullable String model) {
        for (var work : Work.values()) {
            list.add(figures.of(model, work));
        }
    }

    /** Says, corrects or takes back a figure. */
    @Transactional
    WorkDuration set(WorkDurationDraft draft, long expectedVersion) {
        var checks = new Checks().optionalLine("/model", draft.model(), 200);
        if (draft.minutes() != null) {
            checks.range("/minutes", draft.minutes(), draft.work() == Work.WARM_UP ? 0 : 1, MOST_MINUTES);
        }
        checks.refuse();
        var sql = VersionedFigure.sql(
                draft.minutes(),
                expectedVersion,
                """
                insert into work_duration (id, model, work, minutes, version)
                values (gen_random_uuid(), :model, :work, :minutes, 1) on conflict do nothing""",
                "update work_duration set minutes = :minutes, version = version + 1 where %s",
                "delete from work_duration where %s",
                "model is not distinct from :model::text and work = :work");
        var statement = jdbc.sql(sql)
                .param("model", draft.model())
                .param("work", draft.work().toString());
        if (VersionedFigure.run(statement, draft.minutes(), expectedVersion) == 0) {
            throw Etags.stale();
        }
        return figures().of(draft.model(), draft.work());
    }

    private Map<Key, Told> told() {
        var found = new HashMap<Key, Told>();
        jdbc.sql("select model, work, minutes, version from work_duration").query(row -> {
            found.put(
                    new Key(row.getString("model"), Words.of(Work.class, row.getString("work"))),
                    new Told(row.getInt("minutes"), row.getLong("version")));
        });
        return found;
    }
}
