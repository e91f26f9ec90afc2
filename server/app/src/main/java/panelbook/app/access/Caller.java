package panelbook.app.access;

import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.security.core.context.SecurityContextHolder;
import panelbook.wire.Role;

/**
 * Who is asking.
 *
 * @param tokenId of the token that came with the request
 * @param holder person or probe that holds it
 */
public record Caller(UUID tokenId, String holder, Role role) {

    /** Whoever sent the request under way; fails where no request is. */
    public static Caller current() {
        return find().orElseThrow(() -> new IllegalStateException("No request is under way: there is no caller."));
    }

    /** Whoever sent the request under way, if one is. */
    public static Optional<Caller> find() {
        var authentication = SecurityContextHolder.getContext().getAuthentication();
        @Nullable Object principal = authentication == null ? null : authentication.getPrincipal();
        return principal instanceof Caller caller ? Optional.of(caller) : Optional.empty();
    }

    /** As the audit log writes it: holder and token. */
    public String actor() {
        return holder + " (" + tokenId + ")";
    }
}
