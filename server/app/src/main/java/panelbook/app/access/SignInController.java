package panelbook.app.access;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.security.web.csrf.CookieCsrfTokenRepository;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestParam;
import panelbook.app.access.SignIns.In;
import panelbook.app.access.SignIns.Refused;
import panelbook.app.access.SignIns.Wait;

/** Signing in with a name and a password or with a token, signing out, and changing one's own password. */
@Controller
class SignInController {

    private static final String SIGN_IN = "sign-in";
    private static final String PASSWORD = "password";

    private final SignIns signIns;
    private final Sessions sessions;
    private final Accounts accounts;
    private final CookieCsrfTokenRepository formTokens;

    SignInController(SignIns signIns, Sessions sessions, Accounts accounts, CookieCsrfTokenRepository formTokens) {
        this.signIns = signIns;
        this.sessions = sessions;
        this.accounts = accounts;
        this.formTokens = formTokens;
    }

    @GetMapping("/")
    void start(HttpServletRequest request, HttpServletResponse response) {
        Places.go(request, response, Places.BOARD);
    }

    @GetMapping("/sign-in")
    String ask(@RequestParam(required = false) @Nullable String to, Model model) {
        model.addAttribute("to", Places.page(to));
        return SIGN_IN;
    }

    /** Either {@code name} and {@code password} or {@code token}; what was typed as a name stands there again if it was not right. */
    @PostMapping("/sign-in")
    @Nullable
    String signIn(
            @RequestParam(required = false) @Nullable String name,
            @RequestParam(required = false) @Nullable String password,
            @RequestParam(required = false) @Nullable String token,
            @RequestParam(required = false) @Nullable String to,
            HttpServletRequest request,
            HttpServletResponse response,
            Model model) {
        var page = Places.page(to);
        var outcome = outcome(given(name), password == null ? "" : password, given(token), request.getRemoteAddr());
        if (outcome instanceof In in) {
            sessions.begin(request, in.signedIn());
            // whoever knew the old one must not write forms for the one who is in now
            formTokens.saveToken(null, request, response);
            Places.go(request, response, page);
            return null;
        }
        tell(outcome, 401, response, model);
        model.addAttribute("to", page);
        model.addAttribute("name", name);
        return SIGN_IN;
    }

    @PostMapping("/sign-out")
    void signOut(HttpServletRequest request, HttpServletResponse response) {
        sessions.end(request);
        formTokens.saveToken(null, request, response);
        Places.go(request, response, "/sign-in");
    }

    @GetMapping("/board/password")
    String askForPassword(Model model) {
        about(model);
        return PASSWORD;
    }

    /** The session goes on, under a new id; all others of the account end. */
    @PostMapping("/board/password")
    String changePassword(
            @RequestParam("old-password") String old,
            @RequestParam("new-password") String password,
            HttpServletRequest request,
            HttpServletResponse response,
            Model model) {
        about(model);
        var outcome = signIns.changeOwn(Caller.current().id(), old, password, request.getRemoteAddr());
        if (outcome instanceof In in) {
            sessions.begin(request, in.signedIn());
            model.addAttribute("done", true);
        } else {
            tell(outcome, 422, response, model);
        }
        return PASSWORD;
    }

    /** Only who has an account has a password; its name is there for password managers. */
    private void about(Model model) {
        accounts.find(Caller.current().id())
                .ifPresent(
                        kept -> model.addAttribute("accountName", kept.account().name()));
    }

    private static void tell(SignIns.Outcome outcome, int status, HttpServletResponse response, Model model) {
        if (outcome instanceof Wait wait) {
            response.setStatus(429);
            response.setHeader(
                    HttpHeaders.RETRY_AFTER, String.valueOf(wait.left().toSeconds() + 1));
            model.addAttribute("problem", "Too many tries went wrong. Try again in " + words(wait.left()) + ".");
        } else if (outcome instanceof Refused refused) {
            response.setStatus(status);
            model.addAttribute("problem", refused.why());
        }
    }

    private SignIns.Outcome outcome(@Nullable String name, String password, @Nullable String token, String address) {
        if (token != null) {
            return signIns.withToken(token, address);
        }
        if (name != null) {
            return signIns.withPassword(name, password, address);
        }
        return new Refused("Type your name and your password, or a token.");
    }

    private static @Nullable String given(@Nullable String typed) {
        return typed == null || typed.isBlank() ? null : typed.strip();
    }

    private static String words(Duration left) {
        var minutes = left.plusSeconds(59).toMinutes();
        return left.toSeconds() < 60 ? left.toSeconds() + 1 + " seconds" : minutes + " minutes";
    }
}
