package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A person who signs in to the board with a name and a password, without the password.
 *
 * @param name what the person types to sign in
 * @param holder the person, as the audit log names them
 * @param role engineer, calibrator or manager
 */
public record Account(
        UUID id,
        String name,
        String holder,
        Role role,
        Instant createdAt,
        String createdBy,
        Instant passwordSetAt,
        String passwordSetBy,
        @Nullable Instant retiredAt,
        @Nullable String retiredBy) {}
