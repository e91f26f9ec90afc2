package panelbook.app.rest;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import panelbook.wire.Problem;

/** Shows problems to people: a bean of the part that knows which addresses are pages. */
public interface ProblemPages {

    /** Whether a path, without the context path, is a page rather than an operation of the contract. */
    boolean covers(String path);

    /** Answers with the page of a problem. */
    void show(HttpServletRequest request, HttpServletResponse response, Problem problem);
}
