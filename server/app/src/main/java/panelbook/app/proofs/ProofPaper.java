package panelbook.app.proofs;

import java.time.Instant;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.List;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.database.AsOf;
import panelbook.app.drawing.Drawings;
import panelbook.app.papers.PaperPicture;
import panelbook.app.papers.PaperWords;
import panelbook.app.papers.Papers;
import panelbook.app.papers.StateStrip;
import panelbook.app.pictures.Pictures;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingName;
import panelbook.wire.Paper;
import panelbook.wire.ProofContent;

/** Prints a proof. */
@Component
class ProofPaper {

    /** Stands before the content digest in the metadata of the file, where any program finds it without reading PDF. */
    static final String MARK = "panelbook-proof-digest:";

    private static final List<DrawingName> CHARTS = List.of(DrawingName.WHITE, DrawingName.GREY_DELTA_E);

    private final Papers papers;
    private final Pictures pictures;
    private final AsOf asOf;

    ProofPaper(Papers papers, Pictures pictures, AsOf asOf) {
        this.papers = papers;
        this.pictures = pictures;
        this.asOf = asOf;
    }

    /** A chart of a preset; what it draws is no part of the content, and as of the same moment. */
    record Chart(UUID presetId, String title, String summary, String svg) {}

    private List<Chart> charts(ProofContent content) {
        return asOf.at(
                content.asOf(),
                () -> content.targets().stream()
                        .flatMap(target -> target.presets().stream())
                        .flatMap(preset -> CHARTS.stream().map(name -> pictures.of(preset.id(), name)))
                        .filter(drawing -> !drawing.series().isEmpty())
                        .map(ProofPaper::chart)
                        .toList());
    }

    private static Chart chart(Drawing drawing) {
        var words = drawing.title() + ". " + drawing.summary();
        return new Chart(
                drawing.presetId(),
                drawing.title(),
                drawing.summary(),
                PaperPicture.of(Drawings.svg(drawing, Paper.WHITE), words));
    }

    byte[] print(ProofContent content, UUID id, String contentDigest, Instant askedAt, String askedBy) {
        var words = new PaperWords(ZoneId.of(content.timeZone()));
        var title = "Proof of room " + content.facility() + " / " + content.room() + ", " + words.day(content.day());
        var question = Question.answeredBy(content);
        var model = new HashMap<String, Object>();
        model.put("title", title);
        model.put("subject", "The state of a room on a day, as the book stood then");
        model.put("keywords", MARK + contentDigest);
        model.put("foot", "Content digest " + contentDigest);
        model.put("content", content);
        model.put("paper", words);
        model.put("strip", StateStrip.svg(content.readiness(), question.from(), question.endOfDay(), question.zone()));
        model.put("charts", charts(content));
        model.put("id", id);
        model.put("contentDigest", contentDigest);
        model.put("askedAt", askedAt);
        model.put("askedBy", askedBy);
        return papers.print("papers/proof", model);
    }
}
