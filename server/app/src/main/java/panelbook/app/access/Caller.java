package panelbook.app.access;

import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.security.authentication.UsernamePasswordAuthenticationToken;
import org.springframework.security.core.authority.SimpleGrantedAuthority;
import org.springframework.security.core.context.SecurityContextHolder;
import panelbook.wire.Role;
import panelbook.wire.Token;

/**
 * Who is asking.
 *
 * @param id of the token or the account that let them in; for somebody whom the house's provider vouches for, made from what it calls them
 * @param holder person or probe
 */
public record Caller(UUID id, String holder, Role role) {

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

    /** As the audit log writes it: holder, and the id of token or account. */
    public String actor() {
        return holder + " (" + id + ")";
    }

    /** From here on the request comes from this caller; {@code token} is what it came with, null when it was a session. */
    void enter(@Nullable Token token) {
        var authority = new SimpleGrantedAuthority("ROLE_" + role.name());
        var authentication = UsernamePasswordAuthenticationToken.authenticated(this, null, List.of(authority));
        authentication.setDetails(token);
        var context = SecurityContextHolder.createEmptyContext();
        context.setAuthentication(authentication);
        SecurityContextHolder.setContext(context);
    }
}
