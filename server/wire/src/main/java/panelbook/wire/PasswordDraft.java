package panelbook.wire;

/**
 * A password that is to hold from now on.
 *
 * @param password at least 12 characters, at most 1,000, of any kind; without the name that is typed beside it
 */
public record PasswordDraft(String password) {

    /** Without the password, since what is printed may end up in a log. */
    @Override
    public String toString() {
        return "PasswordDraft[]";
    }
}
