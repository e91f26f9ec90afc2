package panelbook.app.matching.advice;

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
import panelbook.wire.Advice;
import panelbook.wire.AdviceDraft;
import panelbook.wire.Retirement;

/** The table of advice. */
@RestController
@RequestMapping(AdviceController.PATH)
class AdviceController {

    static final String PATH = "/api/v1/advice";

    private final AdviceBook book;

    AdviceController(AdviceBook book) {
        this.book = book;
    }

    /** Adds a line. */
    @Adds
    @PostMapping
    ResponseEntity<Advice> addAdvice(@RequestBody AdviceDraft draft) {
        var added = book.add(draft);
        return added.at(PATH + "/" + draft.id(), added.body().version());
    }

    /** The table by moment, look and place. */
    @GetMapping
    List<Advice> listAdvice(@RequestParam(defaultValue = "false") boolean retired) {
        return book.list(retired);
    }

    /** One line. */
    @GetMapping("/{id}")
    ResponseEntity<Advice> getAdvice(@PathVariable UUID id) {
        return withEtag(book.get(id));
    }

    /** Edits a line. */
    @PutMapping("/{id}")
    ResponseEntity<Advice> editAdvice(
            @PathVariable UUID id,
            @RequestBody AdviceDraft draft,
            @RequestHeader(name = "If-Match", required = false) @Nullable String ifMatch) {
        return withEtag(book.edit(id, draft, Etags.expected(ifMatch)));
    }

    /** Takes a line out of use. */
    @PostMapping("/{id}/retirement")
    Advice retireAdvice(@PathVariable UUID id, @RequestBody Retirement retirement) {
        return book.retire(id, retirement);
    }

    private static ResponseEntity<Advice> withEtag(Advice found) {
        return ResponseEntity.ok().eTag(Etags.of(found.version())).body(found);
    }
}
