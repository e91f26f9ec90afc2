package panelbook.app.planning;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.AnswersAsOf;
import panelbook.wire.DueList;
import panelbook.wire.PresetForecast;

@RestController
class PlanningController {

    private final Outlooks outlooks;
    private final DueLists dueLists;

    PlanningController(Outlooks outlooks, DueLists dueLists) {
        this.outlooks = outlooks;
        this.dueLists = dueLists;
    }

    /** When peak luminance and white of a preset will have drifted out of tolerance. */
    @GetMapping("/api/v1/presets/{id}/forecast")
    @AnswersAsOf
    PresetForecast presetForecast(@PathVariable UUID id) {
        return outlooks.forecast(id);
    }

    /** What is due, earliest first; {@code until} is a day such as 2026-12-31, the last that is looked at. */
    @GetMapping("/api/v1/due")
    DueList due(
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(required = false) @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) @Nullable LocalDate until) {
        return dueLists.of(facility, room, until);
    }
}
