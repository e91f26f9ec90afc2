package panelbook.app.fleet;

import java.util.UUID;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.wire.BookEntered;
import panelbook.wire.FacilityBook;

/** The whole of a facility as one document. */
@Component
class Books {

    private final BookReader reader;
    private final BookChecks checks;
    private final BookEntry entry;

    Books(BookReader reader, BookChecks checks, BookEntry entry) {
        this.reader = reader;
        this.checks = checks;
        this.entry = entry;
    }

    /** The facility as it stands: what is in use, by name. Entering it again changes nothing. */
    @Transactional(readOnly = true)
    FacilityBook read(UUID facilityId) {
        return reader.read(facilityId);
    }

    /** Adds or changes what the book names, all of it or nothing; what it does not name stays as it is. */
    @Transactional
    BookEntered enter(FacilityBook book) {
        checks.check(book);
        return entry.enter(book);
    }
}
