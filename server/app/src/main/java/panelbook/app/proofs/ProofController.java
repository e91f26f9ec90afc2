package panelbook.app.proofs;

import java.nio.charset.StandardCharsets;
import java.util.UUID;
import org.springframework.http.ContentDisposition;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Paging;
import panelbook.wire.Page;
import panelbook.wire.Proof;
import panelbook.wire.ProofCheck;
import panelbook.wire.ProofCheckDraft;
import panelbook.wire.ProofContent;
import panelbook.wire.ProofDraft;

@RestController
class ProofController {

    private final Proofs proofs;

    ProofController(Proofs proofs) {
        this.proofs = proofs;
    }

    /** Makes a proof of a room and day. */
    @Adds
    @PostMapping("/api/v1/rooms/{id}/proofs")
    ResponseEntity<Proof> makeProof(@PathVariable UUID id, @RequestBody ProofDraft draft) {
        return proofs.make(id, draft).at("/api/v1/proofs/" + draft.id());
    }

    /** Those of a room, newest first. */
    @GetMapping("/api/v1/rooms/{id}/proofs")
    Page<Proof> listProofs(@PathVariable UUID id, Paging paging) {
        return proofs.ofRoom(id, paging);
    }

    /** One proof. */
    @GetMapping("/api/v1/proofs/{id}")
    Proof getProof(@PathVariable UUID id) {
        return proofs.get(id);
    }

    /** What it says, byte for byte what its content digest is of. */
    @GetMapping(path = "/api/v1/proofs/{id}/content", produces = MediaType.APPLICATION_JSON_VALUE)
    ResponseEntity<ProofContent> proofContent(@PathVariable UUID id) {
        // declared as the record for the description of the contract; written as kept, since other bytes have another
        // digest
        @SuppressWarnings({"unchecked", "rawtypes"})
        ResponseEntity<ProofContent> asKept = (ResponseEntity) ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_JSON)
                .body(proofs.contentOf(id).getBytes(StandardCharsets.UTF_8));
        return asKept;
    }

    /** The PDF as it was handed out. */
    @GetMapping(path = "/api/v1/proofs/{id}/file", produces = MediaType.APPLICATION_PDF_VALUE)
    ResponseEntity<byte[]> proofFile(@PathVariable UUID id) {
        return ResponseEntity.ok()
                .contentType(MediaType.APPLICATION_PDF)
                .header(
                        HttpHeaders.CONTENT_DISPOSITION,
                        ContentDisposition.attachment()
                                .filename("proof-" + id + ".pdf")
                                .build()
                                .toString())
                .body(proofs.file(id));
    }

    /** Whether a document is genuine. */
    @PostMapping("/api/v1/proof-checks")
    ProofCheck checkProof(@RequestBody ProofCheckDraft draft) {
        return proofs.check(draft);
    }
}
