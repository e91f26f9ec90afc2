package panelbook.db;

/**
 * A database role and its password.
 *
 * @param username the role's name
 * @param password the role's password, in the clear
 */
public record Login(String username, String password) {

    /** Leaves the password out, so that a log line never shows it. */
    @Override
    public String toString() {
        return "Login[username=" + username + "]";
    }
}
