package panelbook.app.access;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.http.HttpHeaders;

/**
 * Where people are sent: pages of the board, and the sign-in page that leads back to them. Addresses are relative to the host that the
 * browser knows, so that neither a proxy nor a forged Host header sends anybody elsewhere.
 */
final class Places {

    static final String BOARD = "/board";

    /** Characters of a path and a query as RFC 3986 has them; no other address passes, least of all one with a host. */
    private static final Pattern PAGE =
            Pattern.compile("/board(/[\\w.~%!$&'()*+,;=:@/-]*)?(\\?[\\w.~%!$&'()*+,;=:@/?-]*)?");

    private static final int LONGEST = 2000;

    private Places() {}

    /** The page to go to; the board's first when {@code asked} is none of the board's. */
    static String page(@Nullable String asked) {
        return asked != null && asked.length() <= LONGEST && PAGE.matcher(asked).matches() ? asked : BOARD;
    }

    /** The page that a request asks for, with its query, without the context path. */
    static String asked(HttpServletRequest request) {
        var path = request.getRequestURI().substring(request.getContextPath().length());
        return page(request.getQueryString() == null ? path : path + "?" + request.getQueryString());
    }

    static String signIn(String page) {
        return page.equals(BOARD) ? "/sign-in" : "/sign-in?to=" + URLEncoder.encode(page, StandardCharsets.UTF_8);
    }

    /** Sends the browser on by a GET, whatever the request was (RFC 9110, 15.4.4). */
    static void go(HttpServletRequest request, HttpServletResponse response, String place) {
        response.setStatus(HttpServletResponse.SC_SEE_OTHER);
        response.setHeader(HttpHeaders.LOCATION, request.getContextPath() + place);
    }
}
