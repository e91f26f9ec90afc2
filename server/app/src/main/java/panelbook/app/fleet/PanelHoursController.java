package panelbook.app.fleet;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Paging;
import panelbook.wire.Page;
import panelbook.wire.PanelHoursAnswerDraft;
import panelbook.wire.PanelHoursEntered;
import panelbook.wire.PanelHoursList;
import panelbook.wire.PanelHoursQuestion;

/** Panel hours of many displays, and questions about them. */
@RestController
class PanelHoursController {

    private static final String QUESTIONS = "/api/v1/panel-hours-questions";

    private final PanelHoursBook book;
    private final PanelHoursQuestions questions;

    PanelHoursController(PanelHoursBook book, PanelHoursQuestions questions) {
        this.book = book;
        this.questions = questions;
    }

    /** Enters values of many counters, all or none; what does not go together is asked about. */
    @PostMapping("/api/v1/panel-hours")
    PanelHoursEntered enterPanelHours(@RequestBody PanelHoursList list) {
        return book.enter(list);
    }

    /** Questions about panel hours, oldest first; the open ones, or those that were answered, too. */
    @GetMapping(QUESTIONS)
    Page<PanelHoursQuestion> listPanelHoursQuestions(
            @RequestParam(required = false) @Nullable UUID facility,
            @RequestParam(required = false) @Nullable UUID room,
            @RequestParam(required = false) @Nullable UUID display,
            @RequestParam(defaultValue = "false") boolean answered,
            Paging paging) {
        return questions.page(facility, room, display, answered, paging);
    }

    /** One question about panel hours. */
    @GetMapping(QUESTIONS + "/{id}")
    PanelHoursQuestion getPanelHoursQuestion(@PathVariable UUID id) {
        return questions.get(id);
    }

    /** Answers a question about panel hours. */
    @PostMapping(QUESTIONS + "/{id}/answer")
    PanelHoursQuestion answerPanelHoursQuestion(@PathVariable UUID id, @RequestBody PanelHoursAnswerDraft draft) {
        return questions.answer(id, draft);
    }
}
