package panelbook.app.readiness;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.AnswersAsOf;
import panelbook.wire.FacilityReadiness;
import panelbook.wire.ReadinessHistory;
import panelbook.wire.RoomReadiness;

@RestController
class ReadinessController {

    private static final Duration USUAL = Duration.ofDays(30);

    private final Readiness readiness;
    private final ReadinessHistories histories;
    private final Clock clock;

    ReadinessController(Readiness readiness, ReadinessHistories histories, Clock clock) {
        this.readiness = readiness;
        this.histories = histories;
        this.clock = clock;
    }

    @GetMapping("/api/v1/rooms/{id}/readiness")
    @AnswersAsOf
    RoomReadiness roomReadiness(@PathVariable UUID id) {
        return readiness.ofRoom(id);
    }

    @GetMapping("/api/v1/facilities/{id}/readiness")
    @AnswersAsOf
    FacilityReadiness facilityReadiness(@PathVariable UUID id) {
        return readiness.ofFacility(id);
    }

    /**
     * How the readiness of a room went: {@code from} inclusive, {@code to} exclusive, instants; without them the thirty days until
     * now.
     */
    @GetMapping("/api/v1/rooms/{id}/readiness-history")
    ReadinessHistory roomReadinessHistory(
            @PathVariable UUID id,
            @RequestParam(required = false) @Nullable Instant from,
            @RequestParam(required = false) @Nullable Instant to) {
        var end = to == null ? clock.instant() : to;
        return histories.of(id, from == null ? end.minus(USUAL) : from, end);
    }
}
