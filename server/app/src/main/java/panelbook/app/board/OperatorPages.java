package panelbook.app.board;

import java.time.ZoneId;
import java.util.List;
import java.util.stream.Stream;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.fleet.Directory;
import panelbook.app.matching.TrimBook;
import panelbook.wire.Facility;
import panelbook.wire.Match;

/** The trims of one operator, wherever they are. */
@BoardPage
class OperatorPages {

    private final TrimBook trims;
    private final Directory directory;

    OperatorPages(TrimBook trims, Directory directory) {
        this.trims = trims;
        this.directory = directory;
    }

    @GetMapping("/board/operators")
    String operators(Model model, @RequestParam(defaultValue = "") String name) {
        var matches = name.isBlank() ? List.<Match>of() : trims.ofOperator(name);
        model.addAttribute("operators", trims.operators());
        model.addAttribute("name", name);
        var zones = directory.facilities().stream()
                .map(Facility::timeZone)
                .distinct()
                .toList();
        model.addAttribute("zone", zones.size() == 1 ? ZoneId.of(zones.get(0)) : null);
        model.addAttribute("matches", matches);
        model.addAttribute(
                "places",
                directory.places(matches.stream()
                        .flatMap(match -> Stream.of(match.followerPresetId(), match.heroPresetId()))
                        .distinct()
                        .toList()));
        return "operators";
    }
}
