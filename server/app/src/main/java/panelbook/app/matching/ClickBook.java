package panelbook.app.matching;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.stream.Collectors;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Rows;
import panelbook.app.matching.story.Controls;
import panelbook.app.matching.story.Story.Taken;
import panelbook.app.matching.story.Trials;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.trim.Click;
import panelbook.colorimetry.trim.ClickEffects;
import panelbook.colorimetry.trim.Effect;
import panelbook.colorimetry.trim.Figure;
import panelbook.colorimetry.trim.Trial;
import panelbook.wire.ClickEffect;
import panelbook.wire.EffectFigure;

/** What clicks do on displays, from all steps of matches with readings before and after. */
@Component
class ClickBook {

    // one that was entered twice is one display, whatever its duplicate was called
    private static final String OF_MODEL = """
            with recursive entered (id, kept) as (
                select d.id, d.id from display d where not exists (select 1 from display_merger where duplicate_id = d.id)
                union all
                select m.duplicate_id, e.kept from entered e join display_merger m on m.into_id = e.id)
            select other.id, other.kept from entered one
            join display d on d.id = one.kept
            join display o on o.model = d.model
            join entered other on other.kept = o.id
            where one.id = :display
            """;

    private final StoryRows stories;
    private final MeasuredRuns runs;
    private final PresetFactsBook presets;
    private final JdbcClient jdbc;

    ClickBook(StoryRows stories, MeasuredRuns runs, PresetFactsBook presets, JdbcClient jdbc) {
        this.stories = stories;
        this.runs = runs;
        this.presets = presets;
        this.jdbc = jdbc;
    }

    /** The effects on a display as the contract shows them, by control, level, grey and figure. */
    @Transactional(readOnly = true)
    List<ClickEffect> shown(UUID displayId) {
        return of(displayId).all().entrySet().stream()
                .sorted(Map.Entry.comparingByKey(Comparator.comparing(Click::control)
                        .thenComparing(Click::level)
                        .thenComparing(Click::figure)))
                .map(entry -> shown(entry.getKey(), entry.getValue()))
                .toList();
    }

    private static ClickEffect shown(Click click, Effect effect) {
        return new ClickEffect(
                click.control().name(),
                Controls.level(click.control()),
                click.level().percent(),
                figure(click.figure()),
                effect.perClick().value(),
                effect.perClick().standardUncertainty(),
                effect.lower(),
                effect.upper(),
                effect.ownTrials(),
                effect.otherDisplays());
    }

    private static EffectFigure figure(Figure figure) {
        return switch (figure) {
            case U -> EffectFigure.U;
            case V -> EffectFigure.V;
            case LN_LUMINANCE -> EffectFigure.LN_LUMINANCE;
        };
    }

    /**
     * What a click of each control does on a display, on all its presets, with what is known of its model.
     *
     * @throws Refusal when there is no such display
     */
    ClickEffects of(UUID displayId) {
        var kept = displaysOfModel(displayId);
        var own = Objects.requireNonNull(kept.get(displayId), "the display itself");
        var byDisplay = trials(kept);
        var others = new ArrayList<List<Trial>>();
        byDisplay.forEach((display, trials) -> {
            if (!display.equals(own)) {
                others.add(trials);
            }
        });
        return ClickEffects.of(byDisplay.getOrDefault(own, List.of()), others);
    }

    /** The displays of a model, duplicates of them as well, each with the one that it was merged into, else itself. */
    private Map<UUID, UUID> displaysOfModel(UUID displayId) {
        var kept = new HashMap<UUID, UUID>();
        jdbc.sql(OF_MODEL).param("display", displayId).query(row -> {
            kept.put(Rows.id(row, "id"), Rows.id(row, "kept"));
        });
        if (kept.isEmpty()) {
            throw Refusal.notFound("display", displayId);
        }
        return kept;
    }

    private Map<UUID, List<Trial>> trials(Map<UUID, UUID> kept) {
        var told = stories.list(stories.select(" where fp.display_id = any (:displays) order by s.opened_at, s.id")
                .param("displays", kept.keySet().toArray(new UUID[0])));
        var closing = closingRuns(told);
        var readings = new LinkedHashMap<StoredStory, List<Taken>>();
        told.forEach(stored -> readings.put(stored, readings(stored, closing)));
        var facts = presets.findAll(
                told.stream().map(stored -> stored.opening().followerPresetId()).collect(Collectors.toSet()));
        var measured = measured(readings.values(), facts);
        var trials = new LinkedHashMap<UUID, List<Trial>>();
        readings.forEach((stored, taken) -> trials.computeIfAbsent(
                        Objects.requireNonNull(kept.get(preset(facts, stored).displayId())), id -> new ArrayList<>())
                .addAll(Trials.of(taken, measured)));
        return trials;
    }

    private static PresetFacts preset(Map<UUID, PresetFacts> facts, StoredStory stored) {
        return Objects.requireNonNull(facts.get(stored.opening().followerPresetId()), "follower of a match");
    }

    private Map<UUID, MeasuredRun> measured(Collection<List<Taken>> readings, Map<UUID, PresetFacts> facts) {
        var ids = new HashSet<UUID>();
        readings.forEach(taken -> taken.forEach(one -> ids.add(one.runId())));
        return runs.greysOf(ids, facts).values().stream()
                .collect(Collectors.toMap(RunMeasured::id, RunMeasured::measured));
    }

    /** The readings of a match, its closing run among them. */
    private static List<Taken> readings(StoredStory stored, Map<UUID, UUID> closing) {
        var story = stored.story();
        var readings = new ArrayList<>(story.followerReadings());
        var run = closing.get(stored.id());
        if (run != null && readings.stream().noneMatch(taken -> taken.runId().equals(run))) {
            readings.add(new Taken(story.steps().size() + 1, run, story.now()));
        }
        return readings;
    }

    private Map<UUID, UUID> closingRuns(Collection<StoredStory> told) {
        var closing = new HashMap<UUID, UUID>();
        jdbc.sql("""
                        select m.story_id, m.follower_run_id from counted_match m
                        join match_story s on s.id = m.story_id and s.follower_preset_id = m.follower_preset_id
                        join counted_run r on r.id = m.follower_run_id
                        where m.story_id = any (:stories)
                        """)
                .param("stories", told.stream().map(StoredStory::id).toArray(UUID[]::new))
                .query(row -> {
                    closing.put(Rows.id(row, "story_id"), Rows.id(row, "follower_run_id"));
                });
        return closing;
    }
}
