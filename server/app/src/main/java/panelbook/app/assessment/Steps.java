package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.instruments.InstrumentFacts;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.colorimetry.control.StepWatch;
import panelbook.wire.Metric;

/** Watches presets for steps: figures that moved between two runs rather than aged. */
@Component
class Steps {

    /** From this share of the limit on the others in the room are asked as well. */
    private static final double WORTH_ASKING = 0.5;

    private final JdbcClient jdbc;
    private final MeasuredRuns runs;
    private final PresetFactsBook presets;
    private final ToleranceBook tolerances;

    Steps(JdbcClient jdbc, MeasuredRuns runs, PresetFactsBook presets, ToleranceBook tolerances) {
        this.jdbc = jdbc;
        this.runs = runs;
        this.presets = presets;
        this.tolerances = tolerances;
    }

    /** The steps that stand on the subject's preset, with what else in the room stepped then. */
    List<Figure> figures(Subject subject) {
        var preset = subject.preset();
        var limits = tolerances.of(preset.toleranceSetId(), preset.toleranceSetRevision());
        if (StepSeries.METRICS.stream().allMatch(metric -> limits.limit(metric) == null)) {
            return List.of();
        }
        var series = seriesOf(Map.of(preset.presetId(), preset), subject.run().instrument())
                .get(preset.presetId());
        if (series == null || series.size() < StepWatch.LEAST_RUNS) {
            return List.of();
        }
        return figures(series, () -> roomOf(preset));
    }

    /**
     * The steps that stand in a series.
     *
     * @param room asked for the series of all presets in the room, where what they did then is worth telling
     */
    List<Figure> figures(StepSeries series, Supplier<Collection<StepSeries>> room) {
        var preset = series.preset();
        var limits = tolerances.of(preset.toleranceSetId(), preset.toleranceSetRevision());
        var figures = new ArrayList<Figure>();
        for (var metric : StepSeries.METRICS) {
            series.told(metric).ifPresent(step -> figures.addAll(figure(step, limits.limit(metric), room)));
        }
        return figures;
    }

    private static List<Figure> figure(
            FoundStep step, Tolerances.@Nullable Limit limit, Supplier<Collection<StepSeries>> room) {
        var value = step.value();
        var asked = limit != null && !step.atChangeOfMeter() && value.value() >= WORTH_ASKING * limit.value();
        var tale = asked ? step.tale() + " " + StepCompany.of(step, room.get()).pointing() : step.tale();
        return Figure.naming(
                List.of(Figure.of(step.metric(), value.value(), value.standardUncertainty(), tale, step.readings())),
                step.runs());
    }

    /** The series of all presets in use in the room of a preset; of none when it stands in none. */
    Collection<StepSeries> roomOf(PresetFacts preset) {
        var room = preset.roomId();
        return room == null
                ? List.of()
                : seriesOf(presets.findAll(inRoom(room)), null).values();
    }

    /** The presets in use in a room. */
    List<UUID> inRoom(UUID room) {
        return jdbc.sql("""
                        select p.id from display_stay s
                        join display d on d.id = s.display_id and d.retired_at is null
                        join preset p on p.display_id = d.id and p.retired_at is null
                        where s.room_id = :room and upper_inf(s.during) order by p.id
                        """).param("room", room).query(UUID.class).list();
    }

    /**
     * The series of presets, by preset; those that were not left in one state, or not measured since, are left out.
     *
     * @param known a meter whose facts need not be read; null when there is none
     */
    Map<UUID, StepSeries> seriesOf(Map<UUID, PresetFacts> facts, @Nullable InstrumentFacts known) {
        var series = new HashMap<UUID, StepSeries>();
        runs.whitesSinceLeft(facts, known).forEach((id, whites) -> {
            var one = StepSeries.of(java.util.Objects.requireNonNull(facts.get(id)), whites);
            if (one.size() > 0) {
                series.put(id, one);
            }
        });
        return series;
    }

    /** A step that a preset is known to have made by a metric, as its series shows it now. */
    static @Nullable FoundStep told(Map<UUID, StepSeries> series, UUID preset, Metric metric) {
        var one = series.get(preset);
        return one == null ? null : one.told(metric).orElse(null);
    }
}
