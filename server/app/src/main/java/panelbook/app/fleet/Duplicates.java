package panelbook.app.fleet;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Propagation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.rest.Refusal;
import panelbook.wire.Display;
import panelbook.wire.Preset;
import panelbook.wire.Retirement;
import panelbook.wire.files.RunIds;

/** What the fleet knows of a display that was entered twice, and how it passes to the one that is kept. */
@Component
public class Duplicates {

    private final Displays displays;
    private final Presets presets;
    private final PresetRows presetRows;
    private final PanelHoursWatch watch;
    private final JdbcClient jdbc;
    private final Clock clock;

    Duplicates(
            Displays displays,
            Presets presets,
            PresetRows presetRows,
            PanelHoursWatch watch,
            JdbcClient jdbc,
            Clock clock) {
        this.displays = displays;
        this.presets = presets;
        this.presetRows = presetRows;
        this.watch = watch;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Takes both displays, so that no rival moves, merges or retires one of them until the transaction ends. */
    @Transactional(propagation = Propagation.MANDATORY)
    public void lock(UUID one, UUID other) {
        List.of(one, other).stream().sorted().forEach(id -> RowLock.DISPLAY.take(jdbc, id));
    }

    /**
     * A display.
     *
     * @throws Refusal when there is none
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public Display display(UUID displayId) {
        return displays.get(displayId);
    }

    /** The presets of a display, those out of use too, by name. */
    @Transactional(propagation = Propagation.MANDATORY)
    public List<Preset> presetsOf(UUID displayId) {
        return presetRows.findByDisplayId(displayId).stream()
                .map(row -> presets.get(row.id()))
                .sorted(java.util.Comparator.comparing(Preset::name))
                .toList();
    }

    /**
     * The preset of the kept display becomes the hero of the rooms that the other one is the hero of, from now on. Nobody is
     * told: whoever merges judges all that depends on it.
     *
     * @return whether it took over
     * @throws Refusal when its display does not stand in the room
     */
    @Transactional(propagation = Propagation.MANDATORY)
    public boolean passHeroes(UUID fromPreset, UUID toPreset) {
        var rooms = jdbc.sql("select room_id from hero where preset_id = ? and upper_inf(during)")
                .param(fromPreset)
                .query(UUID.class)
                .list();
        rooms.forEach(room -> passHero(room, fromPreset, toPreset));
        return !rooms.isEmpty();
    }

    private void passHero(UUID room, UUID fromPreset, UUID toPreset) {
        RowLock.ROOM.take(jdbc, room);
        var to = presets.get(toPreset);
        var stands = displays.get(to.displayId());
        if (!room.equals(stands.roomId())) {
            throw Refusal.conflict("The duplicate is the hero of a room that the display to keep does not stand in, "
                    + presets.get(fromPreset).room() + ": move it there first.");
        }
        var now = Rows.at(Rows.kept(clock.instant()));
        jdbc.sql("""
                        update hero set during = tstzrange(lower(during), ?)
                        where room_id = ? and preset_id = ? and upper_inf(during)""").param(now).param(room).param(fromPreset).update();
        jdbc.sql("""
                        insert into hero (id, room_id, target_id, preset_id, during, named_by, named_at)
                        values (?, ?, ?, ?, tstzrange(?, null), ?, ?)""")
                .param(UUID.randomUUID())
                .param(room)
                .param(to.targetId())
                .param(toPreset)
                .param(now)
                .param(Caller.current().holder())
                .param(now)
                .update();
    }

    /** Copies the quirks of a display with what became of them; how many came new. */
    @Transactional(propagation = Propagation.MANDATORY)
    public int copyQuirks(UUID from, UUID into) {
        var quirks = jdbc.sql("select id from quirk where display_id = ? order by seen_at")
                .param(from)
                .query(UUID.class)
                .list();
        return quirks.stream().mapToInt(quirk -> copyQuirk(quirk, into)).sum();
    }

    private int copyQuirk(UUID quirk, UUID into) {
        var copy = RunIds.nameBased(quirk, into.toString().getBytes(StandardCharsets.UTF_8));
        var copied = jdbc.sql("""
                        insert into quirk (id, display_id, note, seen_at, recorded_at, recorded_by)
                        select :copy, :into, note, seen_at, :now, recorded_by from quirk where id = :quirk
                        on conflict (id) do nothing""")
                .param("copy", copy)
                .param("into", into)
                .param("now", Rows.at(clock.instant()))
                .param("quirk", quirk)
                .update();
        jdbc.sql("""
                        insert into quirk_settlement (quirk_id, word, settled_at, settled_by)
                        select :copy, word, settled_at, settled_by from quirk_settlement where quirk_id = :quirk
                        on conflict (quirk_id) do nothing""").param("copy", copy).param("quirk", quirk).update();
        return copied;
    }

    /** Copies the values of the counter that persons read, but for those that stand there already; how many. */
    @Transactional(propagation = Propagation.MANDATORY)
    public int copyPanelHours(UUID from, UUID into) {
        var copied = jdbc.sql("""
                        insert into panel_hours (display_id, at, hours, note, recorded_at, recorded_by)
                        select :into, h.at, h.hours, h.note, :now, h.recorded_by from panel_hours h
                        where h.display_id = :from and h.run_id is null
                          and not exists (select 1 from panel_hours o
                                          where o.display_id = :into and o.at = h.at and o.hours = h.hours
                                            and o.note is not distinct from h.note)
                        order by h.at, h.id""")
                .param("into", into)
                .param("from", from)
                .param("now", Rows.at(clock.instant()))
                .update();
        watch.lookAt(into);
        return copied;
    }

    /** Copies the ranges of the controls, as they were noted last, where none is noted; how many. */
    @Transactional(propagation = Propagation.MANDATORY)
    public int copyControlRanges(UUID from, UUID into) {
        return jdbc.sql("""
                        insert into control_range (id, display_id, control, level, least, most, recorded_at, recorded_by)
                        select distinct on (control, level)
                               gen_random_uuid(), :into, control, level, least, most, recorded_at, recorded_by
                        from control_range r
                        where display_id = :from
                          and not exists (select 1 from control_range o where o.display_id = :into
                                                                          and o.control = r.control and o.level = r.level)
                        order by control, level, recorded_at desc""").param("into", into).param("from", from).update();
    }

    /** Takes the duplicate out of use and out of its room. */
    @Transactional(propagation = Propagation.MANDATORY)
    public Display retire(UUID displayId, String reason) {
        return displays.retire(displayId, new Retirement(reason));
    }
}
