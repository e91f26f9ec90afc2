package panelbook.app.instruments;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.wire.Certificate;
import panelbook.wire.CertificateDraft;
import panelbook.wire.Instrument;
import panelbook.wire.InstrumentDraft;
import panelbook.wire.Page;
import panelbook.wire.Retirement;

/** Instruments. */
@RestController
@RequestMapping(InstrumentsController.PATH)
class InstrumentsController {

    static final String PATH = "/api/v1/instruments";

    private final Instruments instruments;

    InstrumentsController(Instruments instruments) {
        this.instruments = instruments;
    }

    /** Adds an instrument. */
    @Adds
    @PostMapping
    ResponseEntity<Instrument> addInstrument(@RequestBody InstrumentDraft draft) {
        var added = instruments.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** Instruments by name. */
    @GetMapping
    Page<Instrument> listInstruments(
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(defaultValue = "false") boolean retired,
            Paging paging) {
        return instruments.page(name, retired, paging);
    }

    /** One instrument. */
    @GetMapping("/{id}")
    ResponseEntity<Instrument> getInstrument(@PathVariable UUID id) {
        return withEtag(instruments.get(id));
    }

    /** Edits an instrument. */
    @PutMapping("/{id}")
    ResponseEntity<Instrument> editInstrument(
            @PathVariable UUID id,
            @RequestBody InstrumentDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(instruments.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes an instrument out of use. */
    @PostMapping("/{id}/retirement")
    Instrument retireInstrument(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return instruments.retire(id, retirement);
    }

    /** Adds a calibration certificate. */
    @Adds
    @PostMapping("/{id}/certificates")
    ResponseEntity<Certificate> addCertificate(@PathVariable UUID id, @RequestBody CertificateDraft draft) {
        return instruments.addCertificate(id, draft).at(PATH + "/" + id + "/certificates");
    }

    /** Certificates of an instrument, the one that expires last first. */
    @GetMapping("/{id}/certificates")
    List<Certificate> listCertificates(@PathVariable UUID id) {
        return instruments.certificates(id);
    }

    private static ResponseEntity<Instrument> withEtag(Instrument found) {
        return ResponseEntity.ok().eTag(Etags.of(found.version())).body(found);
    }
}
