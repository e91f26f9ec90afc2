package panelbook.app.board;

import java.util.UUID;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.rest.AnswersAsOf;

@BoardPage
class RunPages {

    private final RunViews views;

    RunPages(RunViews views) {
        this.views = views;
    }

    @GetMapping("/board/runs/{id}")
    @AnswersAsOf
    String run(
            Model model, @PathVariable UUID id, @RequestParam(name = Past.PARAMETER, defaultValue = "") String asOf) {
        var view = views.of(id);
        model.addAttribute("view", view);
        model.addAttribute("run", view.run());
        model.addAttribute("zone", view.zone());
        model.addAttribute("at", view.at());
        Past.tell(model, asOf, view.at(), "/board/runs/" + id);
        return "run";
    }
}
