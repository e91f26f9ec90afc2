package panelbook.app.rest;

import java.net.URI;
import org.springframework.http.ResponseEntity;

/**
 * What came of adding a draft.
 *
 * @param body the thing as it stands in the book
 * @param isNew false when the same draft had been added before
 */
public record Added<T>(T body, boolean isNew) {

    /** 201 with its place, or 200 for a repeat; without ETag. */
    public ResponseEntity<T> at(String path) {
        return status(path).body(body);
    }

    /** 201 with its place, or 200 for a repeat; with the ETag of {@code version}. */
    public ResponseEntity<T> at(String path, long version) {
        return status(path).eTag(Etags.of(version)).body(body);
    }

    private ResponseEntity.BodyBuilder status(String path) {
        return isNew
                ? ResponseEntity.created(URI.create(path))
                : ResponseEntity.ok().location(URI.create(path));
    }
}
