package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.Page;
import panelbook.wire.Preset;
import panelbook.wire.PresetDraft;
import panelbook.wire.Retirement;

/** All presets. */
@Component
class Presets {

    private static final String SELECT = """
            select p.id, p.display_id, d.name as display, r.name as room, f.name as facility, p.name, p.target_id,
                   t.name as target, p.retired_at, p.version, b.run_id as baseline_run_id, b.taken_at as baseline_at,
                   exists (select from hero h where h.preset_id = p.id and upper_inf(h.during)) as hero
            from preset p join display d on d.id = p.display_id join facility f on f.id = d.facility_id
            join target t on t.id = p.target_id
            left join display_stay s on s.display_id = d.id and upper_inf(s.during)
            left join room r on r.id = s.room_id
            left join lateral (select b.run_id, u.taken_at from counted_baseline b join run u on u.id = b.run_id
                               where b.preset_id = p.id and upper_inf(b.during)) b on true""";
    private static final Query.Key<Preset> KEY = new Query.Key<>(Preset::name, Preset::id);

    private final PresetRows rows;
    private final DisplayRows displays;
    private final Targets targets;
    private final Heroes heroes;
    private final JdbcClient jdbc;
    private final Clock clock;
    private final ApplicationEventPublisher events;

    Presets(
            PresetRows rows,
            DisplayRows displays,
            Targets targets,
            Heroes heroes,
            JdbcClient jdbc,
            Clock clock,
            ApplicationEventPublisher events) {
        this.rows = rows;
        this.displays = displays;
        this.targets = targets;
        this.heroes = heroes;
        this.jdbc = jdbc;
        this.clock = clock;
        this.events = events;
    }

    @Transactional
    Added<Preset> add(PresetDraft draft) {
        var display = displays.findById(draft.displayId());
        new Checks()
                .name("/name", draft.name())
                .that(display.isPresent(), "/displayId", "There is no display " + draft.displayId() + ".")
                .that(targets.exists(draft.targetId()), "/targetId", "There is no target " + draft.targetId() + ".")
                .refuse();
        var there = rows.findById(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(there.get().draft().equals(draft), "preset", draft.id());
            return new Added<>(get(draft.id()), false);
        }
        display.orElseThrow().mustBeInUse();
        targets.mustBeInUse(draft.targetId());
        rows.saveAndFlush(new PresetRow(draft));
        return new Added<>(get(draft.id()), true);
    }

    @Transactional
    Preset edit(UUID id, PresetDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        new Checks().name("/name", draft.name()).refuse();
        var row = row(id);
        row.mustBeAt(expectedVersion);
        row.edit(draft);
        rows.saveAndFlush(row);
        return get(id);
    }

    /** Takes a preset out of use; if it was a hero, its room has none for the target until another is named. */
    @Transactional
    Preset retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        retire(row(id), clock.instant(), retirement.reason());
        return get(id);
    }

    /** Takes all presets of a display out of use. */
    void retireAllOf(UUID displayId, Instant at, @Nullable String reason) {
        rows.findByDisplayId(displayId).forEach(row -> retire(row, at, reason));
    }

    @Transactional(readOnly = true)
    Preset get(UUID id) {
        return new Query(SELECT)
                .where("p.id = :id", "id", id)
                .one(jdbc, Presets::preset)
                .orElseThrow(() -> Refusal.notFound("preset", id));
    }

    /** Those in use of the displays that stand in a room, by display and name. */
    List<Preset> inUseIn(UUID roomId) {
        return new Query(SELECT)
                .where("s.room_id = :room", "room", roomId)
                .retired(false, "p.retired_at")
                .where("d.retired_at is null")
                .list(jdbc, Presets::preset, "d.name, p.name");
    }

    /** Those in use of a display, by name. */
    List<Preset> inUseOf(UUID displayId) {
        return new Query(SELECT)
                .where("p.display_id = :display", "display", displayId)
                .retired(false, "p.retired_at")
                .list(jdbc, Presets::preset, "p.name");
    }

    @Transactional(readOnly = true)
    Page<Preset> page(Filter filter, boolean retired, Paging paging) {
        var query = new Query(SELECT)
                .where("p.display_id = :display", "display", filter.display())
                .where("s.room_id = :room", "room", filter.room())
                .where("p.name = :name", "name", filter.name())
                .retired(retired, "p.retired_at");
        if (filter.path() != null) {
            narrow(query, PresetPath.parse(filter.path()));
        }
        return query.page(jdbc, Presets::preset, paging, "p.name", "p.id", KEY);
    }

    /** What a list of presets is narrowed to; null does not narrow. */
    record Filter(
            @Nullable UUID display,
            @Nullable UUID room,
            @Nullable String name,
            @Nullable String path) {}

    private static void narrow(Query query, PresetPath path) {
        if (path.inNoRoom()) {
            query.where("r.id is null");
        } else {
            query.where("r.name = :roomName", "roomName", path.room());
        }
        query.where("f.name = :facilityName", "facilityName", path.facility())
                .where("d.name = :displayName", "displayName", path.display())
                .where("p.name = :presetName", "presetName", path.preset());
    }

    private void retire(PresetRow row, Instant at, @Nullable String reason) {
        if (row.retire(at, reason)) {
            rows.saveAndFlush(row);
            heroes.endOf(row.id(), at);
            events.publishEvent(new PresetRetired(row.id(), at));
        }
    }

    private PresetRow row(UUID id) {
        return rows.findById(id).orElseThrow(() -> Refusal.notFound("preset", id));
    }

    private static Preset preset(ResultSet rs, int n) throws SQLException {
        return new Preset(
                rs.getObject("id", UUID.class),
                rs.getObject("display_id", UUID.class),
                rs.getString("display"),
                rs.getString("room"),
                rs.getString("facility"),
                rs.getString("name"),
                rs.getObject("target_id", UUID.class),
                rs.getString("target"),
                rs.getBoolean("hero"),
                rs.getObject("baseline_run_id", UUID.class),
                Rows.instantOrNull(rs, "baseline_at"),
                Rows.instantOrNull(rs, "retired_at"),
                rs.getLong("version"));
    }
}
