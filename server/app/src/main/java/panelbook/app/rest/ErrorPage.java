package panelbook.app.rest;

import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import org.jspecify.annotations.Nullable;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import panelbook.wire.Problem;

/** Where the container sends what failed before or beside the controllers, e.g. a path that the firewall rejects. */
@RestController
class ErrorPage implements ErrorController {

    private final ProblemPages pages;

    ErrorPage(ProblemPages pages) {
        this.pages = pages;
    }

    @RequestMapping("${server.error.path:/error}")
    @Nullable
    ResponseEntity<Problem> problem(HttpServletRequest request, HttpServletResponse response) {
        var code = request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE) instanceof Integer given ? given : 404;
        var status = HttpStatus.resolve(code);
        var problem = Problems.of(status == null ? HttpStatus.INTERNAL_SERVER_ERROR : status, null);
        if (request.getAttribute(RequestDispatcher.ERROR_REQUEST_URI) instanceof String uri
                && pages.covers(uri.substring(request.getContextPath().length()))) {
            pages.show(request, response, problem);
            return null;
        }
        return Problems.forPrograms(problem, HttpHeaders.EMPTY);
    }
}
