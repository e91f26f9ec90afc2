package panelbook.app.board;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.rest.AnswersAsOf;

@BoardPage
class DisplayPages {

    private final DisplayViews views;

    DisplayPages(DisplayViews views) {
        this.views = views;
    }

    /** {@code preset} names the one whose figures are shown. */
    @GetMapping("/board/displays/{id}")
    @AnswersAsOf
    String display(
            Model model,
            @PathVariable UUID id,
            @RequestParam(required = false) @Nullable UUID preset,
            @RequestParam(name = Past.PARAMETER, defaultValue = "") String asOf,
            @RequestParam(name = Past.TYPED, defaultValue = "") String stoodAt) {
        var here = "/board/displays/" + id;
        var view = views.of(id, preset);
        if (!stoodAt.isBlank()) {
            return Past.redirect(here, stoodAt, view.zone());
        }
        model.addAttribute("view", view);
        model.addAttribute("display", view.display());
        model.addAttribute("zone", view.zone());
        model.addAttribute("at", view.at());
        Past.tell(model, asOf, view.at(), here);
        return "display";
    }
}
