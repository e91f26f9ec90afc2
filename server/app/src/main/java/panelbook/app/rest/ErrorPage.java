package panelbook.app.rest;

import jakarta.servlet.RequestDispatcher;
import jakarta.servlet.http.HttpServletRequest;
import org.springframework.boot.webmvc.error.ErrorController;
import org.springframework.http.HttpStatus;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RestController;
import panelbook.wire.Problem;

/** Where the container sends what failed before or beside the controllers, e.g. a path that the firewall rejects. */
@RestController
class ErrorPage implements ErrorController {

    @RequestMapping("${server.error.path:/error}")
    ResponseEntity<Problem> problem(HttpServletRequest request) {
        var code = request.getAttribute(RequestDispatcher.ERROR_STATUS_CODE) instanceof Integer given ? given : 404;
        var status = HttpStatus.resolve(code);
        return Problems.answer(Problems.of(status == null ? HttpStatus.INTERNAL_SERVER_ERROR : status, null));
    }
}
