package panelbook.app.access;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Role;

/**
 * Who came in by what, as it lies in a session.
 *
 * @param id of the account or the token; made from the provider's name for the person where a provider vouches
 * @param role of that moment; accounts and tokens are asked for theirs at each request
 * @param at when
 * @param passwordSetAt of the account then: another one since ends the session; null without account
 */
record SignedIn(
        Way way,
        UUID id,
        String holder,
        Role role,
        Instant at,
        @Nullable Instant passwordSetAt) {

    /** How somebody can come in. */
    enum Way {
        PASSWORD,
        TOKEN,
        PROVIDER;

        private final String word = name().toLowerCase(java.util.Locale.ROOT);

        /** The word used in the database. */
        @Override
        public String toString() {
            return word;
        }
    }

    Caller caller() {
        return new Caller(id, holder, role);
    }
}
