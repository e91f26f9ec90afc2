package panelbook.app.readiness;

import java.time.Clock;
import java.time.Instant;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import panelbook.app.rest.Refusal;
import panelbook.wire.FacilityReadiness;
import panelbook.wire.ReadinessState;
import panelbook.wire.Reason;
import panelbook.wire.RoomReadiness;

/** Says which rooms may be booked, and why not. */
@Service
public class Readiness {

    private final ReadinessBook book;
    private final JdbcClient jdbc;
    private final Clock clock;

    Readiness(ReadinessBook book, JdbcClient jdbc, Clock clock) {
        this.book = book;
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /**
     * Readiness of a room now.
     *
     * @throws Refusal when there is no such room, or it is retired
     */
    public RoomReadiness ofRoom(UUID roomId) {
        var lines = book.ofRoom(roomId);
        if (lines.isEmpty()) {
            throw Refusal.notFound("room in use", roomId);
        }
        return of(lines);
    }

    /** Readiness of the room that these lines, one at least, are of. */
    RoomReadiness of(List<PresetLine> lines) {
        return room(lines, clock.instant());
    }

    /**
     * Readiness of all rooms of a facility now, from the worst to the best.
     *
     * @throws Refusal when there is no such facility
     */
    public FacilityReadiness ofFacility(UUID facilityId) {
        var name = jdbc.sql("select name from facility where id = :id")
                .param("id", facilityId)
                .query(String.class)
                .optional()
                .orElseThrow(() -> Refusal.notFound("facility", facilityId));
        var now = clock.instant();
        var byRoom = new LinkedHashMap<UUID, List<PresetLine>>();
        for (var line : book.ofFacility(facilityId)) {
            byRoom.computeIfAbsent(line.roomId(), id -> new java.util.ArrayList<>())
                    .add(line);
        }
        var rooms = byRoom.values().stream()
                .map(lines -> room(lines, now))
                .sorted(Comparator.comparing(RoomReadiness::state).reversed().thenComparing(RoomReadiness::room))
                .toList();
        return new FacilityReadiness(
                facilityId,
                name,
                now,
                count(rooms, ReadinessState.READY),
                count(rooms, ReadinessState.READY_WITH_REMARKS),
                count(rooms, ReadinessState.NOT_READY),
                rooms);
    }

    private static int count(List<RoomReadiness> rooms, ReadinessState state) {
        return (int) rooms.stream().filter(room -> room.state() == state).count();
    }

    private static RoomReadiness room(List<PresetLine> lines, Instant now) {
        var reasons = ReasonRules.of(lines, now);
        var state = reasons.stream()
                .map(Reason::weight)
                .max(Comparator.naturalOrder())
                .orElse(ReadinessState.READY);
        var first = lines.get(0);
        return new RoomReadiness(first.roomId(), first.facility(), first.room(), state, now, reasons);
    }
}
