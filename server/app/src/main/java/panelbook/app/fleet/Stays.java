package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Query;
import panelbook.app.database.Rows;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.MoveDraft;
import panelbook.wire.Stay;

/** Where displays stand and stood. A stay is begun and ended, never changed. */
@Component
class Stays {

    private static final String SELECT = """
            select s.id, s.display_id, s.room_id, r.name as room, lower(s.during) as since, upper(s.during) as until,
                   s.moved_by, nullif(concat_ws('; ', s.reason, 'left: ' || s.left_because), '') as reason
            from display_stay s join room r on r.id = s.room_id""";

    private final DisplayRows displays;
    private final RoomRows rooms;
    private final Heroes heroes;
    private final JdbcClient jdbc;
    private final Clock clock;
    private final ApplicationEventPublisher events;

    Stays(
            DisplayRows displays,
            RoomRows rooms,
            Heroes heroes,
            JdbcClient jdbc,
            Clock clock,
            ApplicationEventPublisher events) {
        this.displays = displays;
        this.rooms = rooms;
        this.heroes = heroes;
        this.jdbc = jdbc;
        this.clock = clock;
        this.events = events;
    }

    @Transactional(readOnly = true)
    List<Stay> of(UUID displayId) {
        if (!displays.existsById(displayId)) {
            throw Refusal.notFound("display", displayId);
        }
        return new Query(SELECT)
                .where("s.display_id = :display", "display", displayId)
                .list(jdbc, Stays::stay, "lower(s.during) desc");
    }

    /** Moves a display as asked; a repeat changes nothing. */
    @Transactional
    void move(UUID displayId, MoveDraft draft) {
        var now = clock.instant();
        new Checks()
                .text("/reason", draft.reason(), 10_000)
                .that(draft.at() == null || !draft.at().isAfter(now), "/at", "Must not lie in the future.")
                .refuse();
        var display = locked(displayId);
        var earlier = new Query(SELECT).where("s.id = :id", "id", draft.id()).one(jdbc, Stays::stay);
        if (earlier.isPresent()) {
            mustBeRepeat(earlier.get(), displayId, draft);
            return;
        }
        display.mustBeInUse();
        var at = draft.at() == null ? now : Rows.kept(draft.at());
        if (draft.roomId() == null) {
            leave(display, at, draft.reason());
        } else {
            come(display, room(draft.roomId()), draft.id(), at, draft.reason());
        }
    }

    /** Takes the display out of the room it stands in, if it stands in one. */
    void leave(DisplayRow display, Instant at, @Nullable String reason) {
        present(display.id()).ifPresent(stay -> {
            end(stay, at, reason);
            events.publishEvent(new DisplayMoved(display.id(), stay.roomId(), null, at));
        });
    }

    /** Puts the display into a room, out of the one where it stands. */
    void come(DisplayRow display, RoomRow room, UUID stayId, Instant at, @Nullable String reason) {
        room.mustBeInUse();
        if (!room.facilityId().equals(display.facilityId())) {
            throw Refusal.conflict("The room \"" + room.name() + "\" is of another facility than the display: take the"
                    + " display out of every room, edit its facility, then move it in.");
        }
        var present = present(display.id());
        if (present.isPresent()) {
            if (present.get().roomId().equals(room.id())) {
                throw Refusal.conflict("The display stands in \"" + room.name() + "\" already, since "
                        + present.get().from() + ".");
            }
            end(present.get(), at, null);
        } else {
            mustFollowTheLastStay(display.id(), at);
        }
        begin(display, room, stayId, at, reason);
        var from = present.map(Stay::roomId).orElse(null);
        events.publishEvent(new DisplayMoved(display.id(), from, room.id(), at));
    }

    /** Where the display stands now. */
    Optional<Stay> present(UUID displayId) {
        return new Query(SELECT)
                .where("s.display_id = :display", "display", displayId)
                .where("upper_inf(s.during)")
                .one(jdbc, Stays::stay);
    }

    /** Where the displays of a facility stand now. */
    List<Stay> presentIn(UUID facilityId) {
        return new Query(SELECT)
                .where("s.display_id in (select id from display where facility_id = :facility)", "facility", facilityId)
                .where("upper_inf(s.during)")
                .list(jdbc, Stays::stay, "s.id");
    }

    private void begin(DisplayRow display, RoomRow room, UUID stayId, Instant at, @Nullable String reason) {
        jdbc.sql("""
                        insert into display_stay (id, display_id, room_id, during, reason, moved_by, moved_at)
                        values (?, ?, ?, tstzrange(?, null), ?, ?, ?)""")
                .param(stayId)
                .param(display.id())
                .param(room.id())
                .param(Rows.at(at))
                .param(reason)
                .param(Caller.current().holder())
                .param(Rows.at(clock.instant()))
                .update();
    }

    private void end(Stay stay, Instant at, @Nullable String reason) {
        if (!stay.from().isBefore(at)) {
            throw Refusal.conflict("The display came to \"" + stay.room() + "\" at " + stay.from()
                    + ": it cannot have left before that. Give a later time.");
        }
        heroes.endAsDisplayLeaves(stay.displayId(), stay.roomId(), at);
        jdbc.sql("update display_stay set during = tstzrange(lower(during), ?), left_because = ? where id = ?")
                .param(Rows.at(at))
                .param(reason)
                .param(stay.id())
                .update();
    }

    private void mustFollowTheLastStay(UUID displayId, Instant at) {
        var left = jdbc.sql("select max(upper(during)) from display_stay where display_id = ?")
                .param(displayId)
                .query(OffsetDateTime.class)
                .optional()
                .map(OffsetDateTime::toInstant);
        left.filter(end -> end.isAfter(at)).ifPresent(end -> {
            throw Refusal.conflict("The display stood in another room until " + end
                    + ": it cannot have stood in two at once. Give a later time.");
        });
    }

    private static void mustBeRepeat(Stay stay, UUID displayId, MoveDraft draft) {
        var same = stay.displayId().equals(displayId)
                && stay.roomId().equals(draft.roomId())
                && (draft.at() == null || Rows.kept(draft.at()).equals(stay.from()));
        Repeats.mustBeSame(same, "stay", draft.id());
    }

    private DisplayRow locked(UUID displayId) {
        // moves of one display take turns
        if (!RowLock.DISPLAY.take(jdbc, displayId)) {
            throw Refusal.notFound("display", displayId);
        }
        return displays.findById(displayId).orElseThrow();
    }

    private RoomRow room(UUID id) {
        // a room must not be retired while a display moves in
        if (!RowLock.ROOM_SHARED.take(jdbc, id)) {
            throw Refusal.invalid("/roomId", "There is no room " + id + ".");
        }
        return rooms.findById(id).orElseThrow();
    }

    private static Stay stay(ResultSet rs, int n) throws SQLException {
        return new Stay(
                rs.getObject("id", UUID.class),
                rs.getObject("display_id", UUID.class),
                rs.getObject("room_id", UUID.class),
                rs.getString("room"),
                Rows.instant(rs, "since"),
                Rows.instantOrNull(rs, "until"),
                rs.getString("moved_by"),
                rs.getString("reason"));
    }
}
