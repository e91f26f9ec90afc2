package panelbook.app.planning;

import java.time.Clock;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Refusal;
import panelbook.wire.DueList;
import panelbook.wire.PresetForecast;

@RestController
class PlanningController {

    private final PlanningBook book;
    private final Outlooks outlooks;
    private final DueLists dueLists;
    private final Clock clock;

    PlanningController(PlanningBook book, Outlooks outlooks, DueLists dueLists, Clock clock) {
        this.book = book;
        this.outlooks = outlooks;
        this.dueLists = dueLists;
        this.clock = clock;
    }

    /** When peak luminance and white of a preset will have drifted out of tolerance. */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    @GetMapping("/api/v1/presets/{id}/forecast")
    PresetForecast presetForecast(@PathVariable UUID id) {
        return outlooks.of(book.of(id)).stream()
                .map(prospect -> ForecastViews.of(prospect, clock.instant()))
                .findFirst()
                .orElseThrow(() -> Refusal.notFound("preset", id));
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
