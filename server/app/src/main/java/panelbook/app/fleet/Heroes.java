package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Refusal;
import panelbook.wire.Hero;
import panelbook.wire.HeroDraft;

/** Which preset is the hero of which room for its target, now and before. */
@Component
class Heroes {

    private static final String SELECT = """
            select h.room_id, h.target_id, t.name as target, h.preset_id, d.name as display, p.name as preset,
                   lower(h.during) as since, upper(h.during) as until, h.named_by
            from hero h join target t on t.id = h.target_id join preset p on p.id = h.preset_id
            join display d on d.id = p.display_id""";

    private final PresetRows presets;
    private final RoomRows rooms;
    private final JdbcClient jdbc;
    private final Clock clock;
    private final ApplicationEventPublisher events;

    Heroes(PresetRows presets, RoomRows rooms, JdbcClient jdbc, Clock clock, ApplicationEventPublisher events) {
        this.presets = presets;
        this.rooms = rooms;
        this.jdbc = jdbc;
        this.clock = clock;
        this.events = events;
    }

    @Transactional(readOnly = true)
    List<Hero> of(UUID roomId, boolean history) {
        room(roomId);
        var query = new Query(SELECT).where("h.room_id = :room", "room", roomId);
        return history
                ? query.list(jdbc, Heroes::hero, "lower(h.during) desc, t.name")
                : query.where("upper_inf(h.during)").list(jdbc, Heroes::hero, "t.name");
    }

    @Transactional
    Added<Hero> name(UUID roomId, HeroDraft draft) {
        room(roomId).mustBeInUse();
        var preset = presets.findById(draft.presetId())
                .orElseThrow(() -> Refusal.invalid("/presetId", "There is no preset " + draft.presetId() + "."));
        preset.mustBeInUse();
        RowLock.ROOM.take(jdbc, roomId);
        var from = draft.from() == null ? clock.instant() : Rows.kept(draft.from());
        var present = inForce(roomId, preset.targetId());
        if (present != null && present.presetId().equals(preset.id())) {
            return repeated(present, draft);
        }
        mustStandThere(roomId, preset, from);
        replace(roomId, preset, present, from);
        return new Added<>(inForceOrFail(roomId, preset.targetId()), true);
    }

    /** Ends whatever heroes the presets of a display are in a room, as it leaves that room. */
    void endAsDisplayLeaves(UUID displayId, UUID roomId, Instant at) {
        var tooLate = jdbc.sql("""
                        select max(lower(h.during)) from hero h join preset p on p.id = h.preset_id
                        where p.display_id = ? and h.room_id = ? and upper_inf(h.during)""")
                .param(displayId)
                .param(roomId)
                .query(OffsetDateTime.class)
                .optional()
                .map(OffsetDateTime::toInstant);
        tooLate.filter(named -> !named.isBefore(at)).ifPresent(named -> {
            throw Refusal.conflict("A preset of the display was named hero of the room at " + named
                    + ": the display must have stood there until later than that.");
        });
        jdbc.sql("""
                        update hero h set during = tstzrange(lower(h.during), ?) from preset p
                        where p.id = h.preset_id and p.display_id = ? and h.room_id = ? and upper_inf(h.during)""").param(Rows.at(at)).param(displayId).param(roomId).update();
    }

    /** Ends whatever hero a preset is. */
    void endOf(UUID presetId, Instant at) {
        jdbc.sql("update hero set during = tstzrange(lower(during), ?) where preset_id = ? and upper_inf(during)")
                .param(Rows.at(at))
                .param(presetId)
                .update();
    }

    /** Makes {@code preset} the hero from {@code from} on; the caller has checked that it stands in the room. */
    void replace(UUID roomId, PresetRow preset, @Nullable Hero present, Instant from) {
        if (present != null) {
            if (!present.from().isBefore(from)) {
                throw Refusal.conflict("The hero until now, " + present.display() + "/" + present.preset()
                        + ", was named at " + present.from() + ": the next one must be named later than that.");
            }
            endOf(present.presetId(), from);
        }
        jdbc.sql("""
                        insert into hero (id, room_id, target_id, preset_id, during, named_by, named_at)
                        values (?, ?, ?, ?, tstzrange(?, null), ?, ?)""")
                .param(UUID.randomUUID())
                .param(roomId)
                .param(preset.targetId())
                .param(preset.id())
                .param(Rows.at(from))
                .param(Caller.current().holder())
                .param(Rows.at(clock.instant()))
                .update();
        events.publishEvent(new HeroNamed(
                roomId, preset.targetId(), preset.id(), present == null ? null : present.presetId(), from));
    }

    @Nullable
    Hero inForce(UUID roomId, UUID targetId) {
        return new Query(SELECT)
                .where("h.room_id = :room", "room", roomId)
                .where("h.target_id = :target", "target", targetId)
                .where("upper_inf(h.during)")
                .one(jdbc, Heroes::hero)
                .orElse(null);
    }

    /** The heroes of a facility's rooms now. */
    List<Hero> inForceIn(UUID facilityId) {
        return new Query(SELECT)
                .where("h.room_id in (select id from room where facility_id = :facility)", "facility", facilityId)
                .where("upper_inf(h.during)")
                .list(jdbc, Heroes::hero, "h.room_id, t.name");
    }

    private Hero inForceOrFail(UUID roomId, UUID targetId) {
        return Objects.requireNonNull(inForce(roomId, targetId));
    }

    private static Added<Hero> repeated(Hero present, HeroDraft draft) {
        if (draft.from() != null && !Rows.kept(draft.from()).equals(present.from())) {
            throw Refusal.conflict("It is the hero already, since " + present.from() + ".");
        }
        return new Added<>(present, false);
    }

    private void mustStandThere(UUID roomId, PresetRow preset, Instant from) {
        if (from.isAfter(clock.instant())) {
            throw Refusal.invalid("/from", "Must not lie in the future.");
        }
        var since = jdbc.sql("""
                        select lower(during) as since from display_stay
                        where display_id = ? and room_id = ? and upper_inf(during)""")
                .param(preset.displayId())
                .param(roomId)
                .query((rs, n) -> Rows.instant(rs, "since"))
                .optional()
                .orElseThrow(
                        () -> Refusal.conflict("The display of the preset does not stand in the room: move it first."));
        if (from.isBefore(since)) {
            throw Refusal.invalid("/from", "The display has stood in the room only since " + since + ".");
        }
    }

    private RoomRow room(UUID id) {
        return rooms.findById(id).orElseThrow(() -> Refusal.notFound("room", id));
    }

    private static Hero hero(ResultSet rs, int n) throws SQLException {
        return new Hero(
                rs.getObject("room_id", UUID.class),
                rs.getObject("target_id", UUID.class),
                rs.getString("target"),
                rs.getObject("preset_id", UUID.class),
                rs.getString("display"),
                rs.getString("preset"),
                Rows.instant(rs, "since"),
                Rows.instantOrNull(rs, "until"),
                rs.getString("named_by"));
    }
}
