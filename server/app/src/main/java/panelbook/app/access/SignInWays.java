package panelbook.app.access;

import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;

/** What the sign-in page offers beside name, password and token. Public for the template alone. */
@Component
public class SignInWays {

    private final SignInSettings settings;

    SignInWays(SignInSettings settings) {
        this.settings = settings;
    }

    /** How the house's provider is called; null when it has none. */
    public @Nullable String provider() {
        return settings.oidc() == null ? null : settings.oidc().label();
    }
}
