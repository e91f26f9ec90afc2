package panelbook.wire;

import java.util.UUID;

/**
 * An account to be made.
 *
 * @param name what the person types to sign in, in any case; nobody else's who can sign in
 * @param holder the person, as the audit log names them
 * @param role engineer, calibrator or manager
 * @param password as in {@link PasswordDraft}
 */
public record AccountDraft(UUID id, String name, String holder, Role role, String password) {

    /** Without the password, since what is printed may end up in a log. */
    @Override
    public String toString() {
        return "AccountDraft[id=" + id + ", name=" + name + ", holder=" + holder + ", role=" + role + "]";
    }
}
