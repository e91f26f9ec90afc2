package panelbook.app.proofs;

import java.time.Instant;
import java.time.ZoneId;
import java.util.HashMap;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.papers.PaperWords;
import panelbook.app.papers.Papers;
import panelbook.app.papers.StateStrip;
import panelbook.wire.ProofContent;

/** Prints a proof. */
@Component
class ProofPaper {

    /** Stands before the content digest in the metadata of the file, where any program finds it without reading PDF. */
    static final String MARK = "panelbook-proof-digest:";

    private final Papers papers;

    ProofPaper(Papers papers) {
        this.papers = papers;
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
        model.put("id", id);
        model.put("contentDigest", contentDigest);
        model.put("askedAt", askedAt);
        model.put("askedBy", askedBy);
        return papers.print("papers/proof", model);
    }
}
