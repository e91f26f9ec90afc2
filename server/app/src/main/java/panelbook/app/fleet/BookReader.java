package panelbook.app.fleet;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.instruments.Instruments;
import panelbook.wire.CertificateEntry;
import panelbook.wire.DisplayEntry;
import panelbook.wire.FacilityBook;
import panelbook.wire.Instrument;
import panelbook.wire.InstrumentEntry;
import panelbook.wire.PresetEntry;
import panelbook.wire.RoomEntry;
import panelbook.wire.Target;
import panelbook.wire.TargetEntry;
import panelbook.wire.ToleranceSet;
import panelbook.wire.ToleranceSetEntry;

/**
 * Writes a facility down as a book. Tolerance sets, targets and instruments belong to the house rather than to one
 * facility: all that are in use are in every book, so that a book can be entered into an empty service. A display that
 * stands in no room is in no book.
 */
@Component
class BookReader {

    private final Facilities facilities;
    private final Rooms rooms;
    private final ToleranceSets toleranceSets;
    private final Targets targets;
    private final Instruments instruments;
    private final JdbcClient jdbc;

    BookReader(
            Facilities facilities,
            Rooms rooms,
            ToleranceSets toleranceSets,
            Targets targets,
            Instruments instruments,
            JdbcClient jdbc) {
        this.facilities = facilities;
        this.rooms = rooms;
        this.toleranceSets = toleranceSets;
        this.targets = targets;
        this.instruments = instruments;
        this.jdbc = jdbc;
    }

    FacilityBook read(UUID facilityId) {
        var facility = facilities.get(facilityId);
        return new FacilityBook(
                facility.name(),
                facility.timeZone(),
                toleranceSets.inUse().stream().map(BookReader::entry).toList(),
                targets.inUse().stream().map(BookReader::entry).toList(),
                instruments.inUse().stream().map(this::entry).toList(),
                rooms(facilityId, facility.timeZone()));
    }

    private List<RoomEntry> rooms(UUID facilityId, String facilityZone) {
        var displays = displays(facilityId);
        return rooms.inUse(facilityId).stream()
                .map(room -> new RoomEntry(
                        room.name(),
                        room.timeZone().equals(facilityZone) ? null : room.timeZone(),
                        displays.getOrDefault(room.id(), List.of())))
                .toList();
    }

    private Map<UUID, List<DisplayEntry>> displays(UUID facilityId) {
        var presets = presets(facilityId);
        var byRoom = new LinkedHashMap<UUID, List<DisplayEntry>>();
        jdbc.sql("""
                        select d.id, s.room_id, d.name, d.model, d.panel_technology, d.serial_number, d.notes
                        from display d join display_stay s on s.display_id = d.id and upper_inf(s.during)
                        where d.facility_id = ? and d.retired_at is null order by d.name""").param(facilityId).query(row -> {
            var id = row.getObject("id", UUID.class);
            byRoom.computeIfAbsent(row.getObject("room_id", UUID.class), room -> new ArrayList<>())
                    .add(new DisplayEntry(
                            row.getString("name"),
                            row.getString("model"),
                            row.getString("panel_technology"),
                            row.getString("serial_number"),
                            row.getString("notes"),
                            presets.getOrDefault(id, List.of())));
        });
        return byRoom;
    }

    private Map<UUID, List<PresetEntry>> presets(UUID facilityId) {
        var byDisplay = new LinkedHashMap<UUID, List<PresetEntry>>();
        jdbc.sql("""
                        select p.display_id, p.name, t.name as target,
                               exists (select from hero h where h.preset_id = p.id and upper_inf(h.during)) as hero
                        from preset p join display d on d.id = p.display_id join target t on t.id = p.target_id
                        where d.facility_id = ? and p.retired_at is null order by p.name""").param(facilityId).query(row -> {
            byDisplay
                    .computeIfAbsent(row.getObject("display_id", UUID.class), display -> new ArrayList<>())
                    .add(new PresetEntry(row.getString("name"), row.getString("target"), row.getBoolean("hero")));
        });
        return byDisplay;
    }

    static ToleranceSetEntry entry(ToleranceSet set) {
        return new ToleranceSetEntry(
                set.name(),
                set.description(),
                set.warmUpMinutes(),
                set.recalibrationDays(),
                set.recalibrationPanelHours(),
                set.hysteresis(),
                set.conformanceProbability(),
                set.tolerances());
    }

    static TargetEntry entry(Target target) {
        return new TargetEntry(
                target.name(),
                target.primaries(),
                target.eotf(),
                target.gamma(),
                target.signalRange(),
                target.bitDepth(),
                target.peakLuminance(),
                target.blackLuminance(),
                target.toleranceSet());
    }

    private InstrumentEntry entry(Instrument instrument) {
        return new InstrumentEntry(
                instrument.name(),
                instrument.kind(),
                instrument.serialNumber(),
                instrument.luminanceUncertaintyPercent(),
                instrument.luminanceRepeatabilityPercent(),
                instrument.chromaticityUncertainty(),
                instrument.chromaticityRepeatability(),
                instrument.luminanceFloor(),
                instruments.certificates(instrument.id()).stream()
                        .map(c -> new CertificateEntry(c.number(), c.issuedOn(), c.expiresOn()))
                        .toList());
    }
}
