package panelbook.app.board;

import java.time.Clock;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.format.annotation.DateTimeFormat;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.papers.PaperWords;
import panelbook.app.proofs.Proofs;
import panelbook.wire.ProofDraft;

/** The proof of a room and day as a page, and as a PDF that is handed out. */
@BoardPage
class ProofPages {

    private final Proofs proofs;
    private final Clock clock;

    ProofPages(Proofs proofs, Clock clock) {
        this.proofs = proofs;
        this.clock = clock;
    }

    /** What a proof of that day says; of today when none is named. */
    @GetMapping("/board/rooms/{id}/proof")
    String proof(
            @PathVariable UUID id,
            @RequestParam(required = false) @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) @Nullable LocalDate day,
            Model model) {
        var content = proofs.content(id, day);
        var zone = ZoneId.of(content.timeZone());
        model.addAttribute("content", content);
        model.addAttribute("paper", new PaperWords(zone));
        model.addAttribute("zone", zone);
        model.addAttribute("at", content.asOf());
        model.addAttribute("today", clock.instant().atZone(zone).toLocalDate());
        model.addAttribute("made", proofs.ofDay(id, content.day()));
        // made here, so that a form sent twice makes one proof
        model.addAttribute("draftId", UUID.randomUUID());
        return "proof";
    }

    /** Makes the proof and leads to its file. */
    @PostMapping("/board/rooms/{id}/proof")
    String make(
            @PathVariable UUID id,
            @RequestParam("id") UUID draftId,
            @RequestParam @DateTimeFormat(iso = DateTimeFormat.ISO.DATE) LocalDate day) {
        return "redirect:/board/proofs/"
                + proofs.make(id, new ProofDraft(draftId, day)).body().id() + ".pdf";
    }

    /** The file as it was handed out. */
    @GetMapping(path = "/board/proofs/{id}.pdf", produces = MediaType.APPLICATION_PDF_VALUE)
    ResponseEntity<byte[]> file(@PathVariable UUID id) {
        var proof = proofs.get(id);
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(HttpHeaders.CONTENT_DISPOSITION, inline("proof " + proof.room() + " " + proof.day() + ".pdf"))
                .body(proofs.file(id));
    }

    private static String inline(String name) {
        return ContentDisposition.inline()
                .filename(name, java.nio.charset.StandardCharsets.UTF_8)
                .build()
                .toString();
    }
}
