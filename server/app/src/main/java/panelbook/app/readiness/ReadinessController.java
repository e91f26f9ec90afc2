package panelbook.app.readiness;

import java.util.UUID;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.AnswersAsOf;
import panelbook.wire.FacilityReadiness;
import panelbook.wire.RoomReadiness;

@RestController
class ReadinessController {

    private final Readiness readiness;

    ReadinessController(Readiness readiness) {
        this.readiness = readiness;
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
}
