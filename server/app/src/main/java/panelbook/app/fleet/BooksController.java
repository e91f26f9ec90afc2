package panelbook.app.fleet;

import java.util.UUID;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import panelbook.wire.BookEntered;
import panelbook.wire.FacilityBook;

/** Whole facilities. */
@RestController
@RequestMapping("/api/v1")
class BooksController {

    private final Books books;

    BooksController(Books books) {
        this.books = books;
    }

    /** A facility with all that is in use, by names. */
    @GetMapping("/facilities/{id}/book")
    FacilityBook getBook(@PathVariable UUID id) {
        return books.read(id);
    }

    /** Adds or changes what the book names, all of it or nothing. */
    @PostMapping("/books")
    BookEntered enterBook(@RequestBody FacilityBook book) {
        return books.enter(book);
    }
}
