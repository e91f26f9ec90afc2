package panelbook.app.fleet;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
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
import panelbook.wire.Display;
import panelbook.wire.DisplayDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** All displays. */
@Component
class Displays {

    private static final String SELECT = """
            select d.id, d.facility_id, f.name as facility, s.room_id, r.name as room, d.name, d.model,
                   d.panel_technology, d.serial_number, d.notes, d.retired_at, d.version,
                   (select h.hours from counted_panel_hours h where h.display_id = d.id order by h.at desc, h.id desc limit 1)
                   as panel_hours
            from display d join facility f on f.id = d.facility_id
            left join display_stay s on s.display_id = d.id and upper_inf(s.during)
            left join room r on r.id = s.room_id""";
    private static final Query.Key<Display> KEY = new Query.Key<>(Display::name, Display::id);

    private final DisplayRows rows;
    private final FacilityRows facilities;
    private final RoomRows rooms;
    private final Stays stays;
    private final Presets presets;
    private final JdbcClient jdbc;
    private final Clock clock;

    Displays(
            DisplayRows rows,
            FacilityRows facilities,
            RoomRows rooms,
            Stays stays,
            Presets presets,
            JdbcClient jdbc,
            Clock clock) {
        this.rows = rows;
        this.facilities = facilities;
        this.rooms = rooms;
        this.stays = stays;
        this.presets = presets;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    @Transactional
    Added<Display> add(DisplayDraft draft) {
        check(draft);
        var there = rows.findById(draft.id());
        if (there.isPresent()) {
            var same = there.get().sameAs(draft);
            Repeats.mustBeSame(same, "display", draft.id());
            return new Added<>(get(draft.id()), false);
        }
        facilities.findById(draft.facilityId()).orElseThrow().mustBeInUse();
        var row = rows.saveAndFlush(new DisplayRow(draft));
        if (draft.roomId() != null) {
            var room = rooms.findById(draft.roomId()).orElseThrow();
            stays.come(row, room, UUID.randomUUID(), clock.instant(), null);
        }
        return new Added<>(get(draft.id()), true);
    }

    @Transactional
    Display edit(UUID id, DisplayDraft draft, long expectedVersion) {
        Repeats.mustBeAbout(id, draft.id());
        check(draft);
        var row = row(id);
        row.mustBeAt(expectedVersion);
        if (!row.facilityId().equals(draft.facilityId())) {
            mustStandNowhere(id);
            facilities.findById(draft.facilityId()).orElseThrow().mustBeInUse();
        }
        row.edit(draft);
        rows.saveAndFlush(row);
        return get(id);
    }

    /** Takes the display out of use and out of its room; its presets go with it. */
    @Transactional
    Display retire(UUID id, Retirement retirement) {
        Repeats.check(retirement);
        var row = row(id);
        var now = clock.instant();
        if (row.retire(now, retirement.reason())) {
            rows.saveAndFlush(row);
            stays.leave(row, now, retirement.reason());
            presets.retireAllOf(id, now, retirement.reason());
        }
        return get(id);
    }

    @Transactional(readOnly = true)
    Display get(UUID id) {
        return new Query(SELECT)
                .where("d.id = :id", "id", id)
                .one(jdbc, Displays::display)
                .orElseThrow(() -> Refusal.notFound("display", id));
    }

    @Transactional(readOnly = true)
    Page<Display> page(
            @Nullable UUID facility, @Nullable UUID room, @Nullable String name, boolean retired, Paging paging) {
        return new Query(SELECT)
                .where("d.facility_id = :facility", "facility", facility)
                .where("s.room_id = :room", "room", room)
                .where("d.name = :name", "name", name)
                .retired(retired, "d.retired_at")
                .page(jdbc, Displays::display, paging, "d.name", "d.id", KEY);
    }

    /** Those that stand in a room, by name. */
    List<Display> standingIn(UUID roomId) {
        return new Query(SELECT)
                .where("s.room_id = :room", "room", roomId)
                .retired(false, "d.retired_at")
                .list(jdbc, Displays::display, "d.name");
    }

    private DisplayRow row(UUID id) {
        return rows.findById(id).orElseThrow(() -> Refusal.notFound("display", id));
    }

    private void mustStandNowhere(UUID id) {
        stays.present(id).ifPresent(stay -> {
            throw Refusal.conflict("The display stands in \"" + stay.room()
                    + "\": take it out of every room before it changes its facility.");
        });
    }

    private void check(DisplayDraft draft) {
        var checks = checks(new Checks(), "", draft);
        checks.that(
                facilities.existsById(draft.facilityId()),
                "/facilityId",
                "There is no facility " + draft.facilityId() + ".");
        checks.that(
                draft.roomId() == null || rooms.existsById(draft.roomId()),
                "/roomId",
                "There is no room " + draft.roomId() + ".");
        checks.refuse();
    }

    /** Checks what a draft says of the display itself; {@code at} points to it. */
    static Checks checks(Checks checks, String at, DisplayDraft draft) {
        return checks.name(at + "/name", draft.name())
                .line(at + "/model", draft.model(), 200)
                .line(at + "/panelTechnology", draft.panelTechnology(), 100)
                .optionalLine(at + "/serialNumber", draft.serialNumber(), 200)
                .text(at + "/notes", draft.notes(), 10_000);
    }

    private static Display display(ResultSet rs, int n) throws SQLException {
        return new Display(
                rs.getObject("id", UUID.class),
                rs.getObject("facility_id", UUID.class),
                rs.getString("facility"),
                rs.getObject("room_id", UUID.class),
                rs.getString("room"),
                rs.getString("name"),
                rs.getString("model"),
                rs.getString("panel_technology"),
                rs.getString("serial_number"),
                rs.getString("notes"),
                rs.getObject("panel_hours", Double.class),
                Rows.instantOrNull(rs, "retired_at"),
                rs.getLong("version"));
    }
}
