package panelbook.app.proofs;

import java.time.Instant;
import java.time.ZoneId;
import java.util.Map;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.app.papers.PaperWords;
import panelbook.app.papers.Papers;
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
        return papers.print(
                "papers/proof",
                Map.of(
                        "title", title,
                        "subject", "The state of a room on a day, as the book stood then",
                        "keywords", MARK + contentDigest,
                        "foot", "Content digest " + contentDigest,
                        "content", content,
                        "paper", words,
                        "id", id,
                        "contentDigest", contentDigest,
                        "askedAt", askedAt,
                        "askedBy", askedBy));
    }
}
