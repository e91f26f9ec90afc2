package panelbook.app.access;

import jakarta.servlet.http.HttpServletRequest;
import java.util.UUID;
import org.springframework.security.config.annotation.web.builders.HttpSecurity;
import org.springframework.security.config.annotation.web.configurers.AnonymousConfigurer;
import org.springframework.security.web.authentication.AnonymousAuthenticationFilter;

/** Requests of callers whom nobody knows. */
final class Strangers {

    private Strangers() {}

    /**
     * Nothing is noted of them but their address. The library would note their session as well, and so read it whenever somebody asks
     * for the caller; reading it is a transaction, and each transaction asks for the caller.
     */
    static void known(AnonymousConfigurer<HttpSecurity> strangers) {
        var key = UUID.randomUUID().toString();
        var filter = new AnonymousAuthenticationFilter(key);
        filter.setAuthenticationDetailsSource(HttpServletRequest::getRemoteAddr);
        strangers.key(key).authenticationFilter(filter);
    }
}
