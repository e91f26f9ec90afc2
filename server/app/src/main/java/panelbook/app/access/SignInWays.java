package panelbook.app.access;

import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What the sign-in page offers beside name, password and token. */
@Component
public class SignInWays {

    /** The name of the house's provider; null when it has none. */
    public @Nullable String provider() {
        return null;
    }
}
