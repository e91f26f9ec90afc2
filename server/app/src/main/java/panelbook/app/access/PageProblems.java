package panelbook.app.access;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.util.HashMap;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.MediaType;
import org.springframework.security.access.AccessDeniedException;
import org.springframework.security.core.AuthenticationException;
import org.springframework.security.web.AuthenticationEntryPoint;
import org.springframework.security.web.access.AccessDeniedHandler;
import org.springframework.security.web.csrf.CsrfException;
import org.springframework.stereotype.Component;
import org.springframework.web.servlet.ViewResolver;
import org.thymeleaf.spring6.view.ThymeleafViewResolver;
import panelbook.app.rest.ProblemPages;
import panelbook.wire.Problem;

/** Says to people why there is no page for them, in a page; to programs, which come with a token, as elsewhere. */
@Component
class PageProblems implements AuthenticationEntryPoint, AccessDeniedHandler, ProblemPages {

    private static final Map<Integer, String> HEADINGS = Map.of(
            400, "This cannot be understood",
            401, "You are not signed in any more",
            403, "This is not for your role",
            404, "There is no such page",
            409, "It contradicts the book",
            413, "Too much at once",
            429, "Not so fast");

    private static final Map<Integer, String> WORDS = Map.of(
            400, "Look at the address, or go back and try again.",
            404, "Look at the address; the list of rooms leads to all pages.",
            405, "This address takes forms only, or pages only. The list of rooms leads to all pages.");

    private final ViewResolver views;
    private final AccessProblems programs;

    PageProblems(ThymeleafViewResolver views, AccessProblems programs) {
        this.views = views;
        this.programs = programs;
    }

    @Override
    public boolean covers(String path) {
        return path.equals("/")
                || path.equals("/board")
                || path.startsWith("/board/")
                || path.startsWith("/sign-in")
                || path.equals("/sign-out")
                || path.startsWith("/style/")
                || path.startsWith("/script/");
    }

    @Override
    public void commence(HttpServletRequest request, HttpServletResponse response, AuthenticationException missing)
            throws IOException {
        var reads = request.getMethod().equals("GET") || request.getMethod().equals("HEAD");
        if (request.getServletPath().equals("/board/stream")) {
            programs.commence(request, response, missing);
        } else if (reads) {
            Places.go(request, response, Places.signIn(Places.asked(request)));
        } else {
            show(
                    request,
                    response,
                    401,
                    "Nothing was changed. What you had typed stands below: copy it, sign in, and enter it again.",
                    Map.of("typed", typed(request)));
        }
    }

    @Override
    public void handle(HttpServletRequest request, HttpServletResponse response, AccessDeniedException denied)
            throws IOException {
        if (BearerFilter.carriesToken(request)) {
            programs.handle(request, response, denied);
        } else if (denied instanceof CsrfException) {
            show(
                    request,
                    response,
                    403,
                    "Nothing was changed, since this form did not come from a page that is open in this browser now. Go back,"
                            + " load the page again and send the form once more. The browser must accept this service's cookies.",
                    Map.of("heading", "This form is out of date"));
        } else {
            var role = Caller.find().map(caller -> caller.role().toString()).orElse("nobody");
            show(
                    request,
                    response,
                    403,
                    "You are signed in as " + role + ", which does not cover this. Nothing was changed.",
                    Map.of());
        }
    }

    @Override
    public void show(HttpServletRequest request, HttpServletResponse response, Problem problem) {
        var standard = HttpStatus.resolve(problem.status());
        var general = standard != null && standard.getReasonPhrase().equals(problem.title());
        var detail = general ? WORDS.getOrDefault(problem.status(), problem.detail()) : problem.detail();
        var more = new HashMap<String, Object>();
        if (problem.errors() != null) {
            more.put("errors", problem.errors());
        }
        if (!request.getMethod().equals("GET") && !request.getMethod().equals("HEAD")) {
            more.put("typed", typed(request));
        }
        if (!HEADINGS.containsKey(problem.status())) {
            more.put("heading", problem.title());
        }
        show(request, response, problem.status(), detail, more);
    }

    /** Nobody came in by the house's provider. */
    void notIn(HttpServletRequest request, HttpServletResponse response, int status, String words) {
        show(request, response, status, words, Map.of("heading", "You are not signed in"));
    }

    private void show(
            HttpServletRequest request, HttpServletResponse response, int status, String detail, Map<String, ?> more) {
        response.resetBuffer();
        response.setStatus(status);
        response.setContentType(MediaType.TEXT_HTML_VALUE + ";charset=UTF-8");
        response.setHeader(HttpHeaders.CACHE_CONTROL, "no-store");
        // an address that is refused before any rule is asked comes here without what the rules would tell browsers
        response.setHeader("Content-Security-Policy", PageRules.CONTENT);
        response.setHeader("Referrer-Policy", "same-origin");
        response.setHeader("X-Content-Type-Options", "nosniff");
        response.setHeader("X-Frame-Options", "DENY");
        var model = new HashMap<String, @Nullable Object>();
        model.put("heading", HEADINGS.get(status));
        model.put("detail", detail);
        model.putAll(more);
        try {
            var view = views.resolveViewName("problem", Locale.ENGLISH);
            if (view == null) {
                throw new IllegalStateException("There is no template \"problem\"");
            }
            view.render(model, request, response);
        } catch (Exception failed) {
            throw new IllegalStateException("The page of a problem could not be shown", failed);
        }
    }

    /** What a person had typed into the form, so that it is not lost; not what nobody should see. */
    private static Map<String, String> typed(HttpServletRequest request) {
        var typed = new TreeMap<String, String>();
        request.getParameterMap().forEach((name, values) -> {
            if (!name.startsWith("_") && !name.contains("password") && !name.contains("token")) {
                typed.put(name.replace('-', ' '), String.join("\n", values));
            }
        });
        return typed;
    }
}
