package panelbook.app.matching;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.matching.story.Settings;
import panelbook.app.matching.story.Step;
import panelbook.app.matching.story.Step.Half;
import panelbook.app.matching.story.Story;
import panelbook.app.rest.Words;
import panelbook.app.runs.PresetPath;
import panelbook.wire.Condition;
import panelbook.wire.Look;
import panelbook.wire.Observation;
import panelbook.wire.OpeningDraft;
import panelbook.wire.OperatorVerdict;
import panelbook.wire.Place;
import panelbook.wire.StepDraft;
import panelbook.wire.StepKind;
import panelbook.wire.Trim;
import tools.jackson.databind.json.JsonMapper;

/** Stories in and out of the database. */
@Component
class StoryRows {

    private static final String SELECT = """
            select s.*, %s as follower, %s as hero, t.name as target, i.name as instrument, g.reason as ended_because,
                   (select m.id from counted_match m where m.story_id = s.id
                    order by m.signed_at desc, m.recorded_at desc limit 1) as match_id
            from match_story s
            %s%s
            join target t on t.id = fp.target_id
            left join instrument i on i.id = s.instrument_id
            left join match_given_up g on g.story_id = s.id
            """.formatted(
                    PresetPath.expression("f"),
                    PresetPath.expression("h"),
                    PresetPath.joins("f", "s.follower_preset_id"),
                    PresetPath.joins("h", "s.hero_preset_id"));

    /** Whether a story is open, as one is again whose sign-off was withdrawn; a condition on {@link #select}. */
    static final String OPEN =
            "g.story_id is null and not exists (select 1 from counted_match m where m.story_id = s.id)";

    // a run that was withdrawn tells nothing of the pair, but for one that passed on as its display was merged into
    // another
    private static final String TELLS = """
            (not exists (select 1 from run_withdrawal w where w.run_id = r.id)
             or exists (select 1 from preset rp join display_merger dm on dm.duplicate_id = rp.display_id
                        where rp.id = r.preset_id))""";

    private final JdbcClient jdbc;
    private final JsonMapper json;

    StoryRows(JdbcClient jdbc, JsonMapper json) {
        this.jdbc = jdbc;
        this.json = json;
    }

    /** Lets others wait who want to add to a story; empty when there is none. */
    boolean lock(UUID storyId) {
        return jdbc.sql("select id from match_story where id = :id for update")
                .param("id", storyId)
                .query(UUID.class)
                .optional()
                .isPresent();
    }

    Optional<StoredStory> find(UUID storyId) {
        return list(jdbc.sql(SELECT + " where s.id = :id").param("id", storyId)).stream()
                .findFirst();
    }

    /** Starts a query over all stories for {@link #list}; {@code rest} is what follows the joins. */
    JdbcClient.StatementSpec select(String rest) {
        return jdbc.sql(SELECT + rest);
    }

    /** The stories of a query that {@link #select} began, with their steps. */
    List<StoredStory> list(JdbcClient.StatementSpec query) {
        var heads = query.query((row, n) -> head(row)).list();
        var steps = steps(heads.stream().map(StoredStory::id).toList());
        return heads.stream()
                .map(head -> head.telling(Story.of(head.story().now(), steps.getOrDefault(head.id(), List.of()))))
                .toList();
    }

    private StoredStory head(ResultSet row) throws SQLException {
        var trims = List.of(json.readValue(row.getString("starting_trims"), Trim[].class));
        var opening = new OpeningDraft(
                Rows.id(row, "id"),
                Rows.id(row, "follower_preset_id"),
                Rows.id(row, "hero_preset_id"),
                row.getString("operator"),
                Rows.idOrNull(row, "instrument_id"),
                Rows.intOrNull(row, "follower_minutes_since_power_on"),
                Rows.intOrNull(row, "hero_minutes_since_power_on"),
                Rows.booleanOrNull(row, "lights_at_viewing_level"),
                trims,
                Rows.instant(row, "opened_at"));
        return new StoredStory(
                opening,
                Story.of(Settings.of(trims), List.of()),
                row.getString("follower"),
                row.getString("hero"),
                row.getString("target"),
                row.getString("instrument"),
                List.of(json.readValue(row.getString("conditions"), Condition[].class)),
                List.of(json.readValue(row.getString("advice"), String[].class)),
                Rows.idOrNull(row, "match_id"),
                row.getString("ended_because"),
                Rows.instant(row, "opened_at"),
                Rows.instant(row, "recorded_at"),
                row.getString("recorded_by"));
    }

    private Map<UUID, List<Step>> steps(Collection<UUID> storyIds) {
        var steps = new HashMap<UUID, List<Step>>();
        if (storyIds.isEmpty()) {
            return steps;
        }
        jdbc.sql("""
                        select st.*, r.preset_id = s.follower_preset_id as of_follower, r.preset_id = s.hero_preset_id as of_hero
                        from match_step st join match_story s on s.id = st.story_id
                        left join run r on r.id = st.run_id and %s
                        where st.story_id = any (:stories) order by st.story_id, st.number
                        """.formatted(TELLS))
                .param("stories", storyIds.toArray(new UUID[0]))
                .query(row -> {
                    steps.computeIfAbsent(Rows.id(row, "story_id"), id -> new ArrayList<>())
                            .add(step(row));
                });
        return steps;
    }

    private static Step step(ResultSet row) throws SQLException {
        var kind = Words.of(StepKind.class, row.getString("kind"));
        var draft = new StepDraft(
                Rows.id(row, "id"),
                row.getInt("number"),
                kind,
                kind == StepKind.OBSERVATION ? observation(row) : null,
                kind == StepKind.TRIM
                        ? new Trim(row.getString("control"), row.getString("level"), row.getInt("clicks"))
                        : null,
                kind == StepKind.VERDICT ? Words.of(OperatorVerdict.class, row.getString("verdict")) : null,
                Rows.idOrNull(row, "run_id"),
                Rows.intOrNull(row, "return_to"),
                kind == StepKind.OVERRIDE ? row.getString("control") : null,
                kind == StepKind.OVERRIDE ? row.getString("level") : null,
                row.getString("note"),
                Rows.instant(row, "at"));
        return new Step(draft, half(row), row.getString("recorded_by"));
    }

    private static Observation observation(ResultSet row) throws SQLException {
        return new Observation(
                Words.of(Look.class, row.getString("look")),
                Words.of(Place.class, row.getString("place")),
                row.getString("colour"),
                row.getString("material"));
    }

    private static @Nullable Half half(ResultSet row) throws SQLException {
        if (row.getBoolean("of_hero")) {
            return Half.HERO;
        }
        return row.getBoolean("of_follower") ? Half.FOLLOWER : null;
    }

    /** False when there is a story of that id. */
    boolean insert(
            OpeningDraft draft,
            Instant openedAt,
            List<Condition> conditions,
            List<String> advice,
            Instant now,
            Caller caller) {
        return jdbc.sql("""
                        insert into match_story (id, follower_preset_id, hero_preset_id, operator, instrument_id,
                                                 follower_minutes_since_power_on, hero_minutes_since_power_on,
                                                 lights_at_viewing_level, starting_trims, conditions, advice, opened_at,
                                                 recorded_at, recorded_by)
                        values (:id, :follower, :hero, :operator, :instrument::uuid, :followerMinutes::integer,
                                :heroMinutes::integer, :lights::boolean, :trims::jsonb, :conditions::jsonb, :advice::jsonb,
                                :openedAt, :now, :by)
                        on conflict (id) do nothing
                        """)
                        .param("id", draft.id())
                        .param("follower", draft.followerPresetId())
                        .param("hero", draft.heroPresetId())
                        .param("operator", draft.operator())
                        .param("instrument", draft.instrumentId())
                        .param("followerMinutes", draft.followerMinutesSincePowerOn())
                        .param("heroMinutes", draft.heroMinutesSincePowerOn())
                        .param("lights", draft.lightsAtViewingLevel())
                        .param("trims", json.writeValueAsString(draft.startingTrims()))
                        .param("conditions", json.writeValueAsString(conditions))
                        .param("advice", json.writeValueAsString(advice))
                        .param("openedAt", Rows.at(openedAt))
                        .param("now", Rows.at(now))
                        .param("by", caller.holder())
                        .update()
                == 1;
    }

    /** False when a step has that id or that place already. */
    boolean insert(UUID storyId, StepDraft draft, Instant now, Caller caller) {
        var seen = draft.observation();
        var trim = draft.trim();
        return jdbc.sql("""
                        insert into match_step (story_id, number, id, kind, look, place, colour, material, control, level,
                                                clicks, verdict, run_id, return_to, note, at, recorded_at, recorded_by)
                        values (:story, :number, :id, :kind, :look::text, :place::text, :colour::text, :material::text,
                                :control::text, :level::text, :clicks::integer, :verdict::text, :run::uuid,
                                :returnTo::integer, :note::text, :at, :now, :by)
                        on conflict do nothing
                        """)
                        .param("story", storyId)
                        .param("number", draft.number())
                        .param("id", draft.id())
                        .param("kind", draft.kind().toString())
                        .param("look", seen == null ? null : seen.look().toString())
                        .param("place", seen == null ? null : seen.place().toString())
                        .param("colour", seen == null ? null : seen.colour())
                        .param("material", seen == null ? null : seen.material())
                        .param("control", trim == null ? draft.control() : trim.control())
                        .param("level", trim == null ? draft.level() : trim.level())
                        .param("clicks", trim == null ? null : trim.clicks())
                        .param(
                                "verdict",
                                draft.verdict() == null ? null : draft.verdict().toString())
                        .param("run", draft.runId())
                        .param("returnTo", draft.returnTo())
                        .param("note", draft.note())
                        .param("at", Rows.at(Rows.kept(draft.at())))
                        .param("now", Rows.at(now))
                        .param("by", caller.holder())
                        .update()
                == 1;
    }

    void giveUp(UUID storyId, String reason, Instant now, Caller caller) {
        jdbc.sql(
                        "insert into match_given_up (story_id, reason, given_up_at, given_up_by) values (:id, :reason, :now, :by)")
                .param("id", storyId)
                .param("reason", reason)
                .param("now", Rows.at(now))
                .param("by", caller.holder())
                .update();
    }
}
