package panelbook.app.rest;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import org.apache.tomcat.util.http.InvalidParameterException;
import org.jspecify.annotations.Nullable;
import org.postgresql.util.PSQLException;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.TypeMismatchException;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.core.annotation.Order;
import org.springframework.dao.ConcurrencyFailureException;
import org.springframework.dao.DataIntegrityViolationException;
import org.springframework.dao.OptimisticLockingFailureException;
import org.springframework.http.HttpHeaders;
import org.springframework.http.HttpStatus;
import org.springframework.http.HttpStatusCode;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.http.converter.HttpMessageNotReadableException;
import org.springframework.web.ErrorResponse;
import org.springframework.web.bind.MissingServletRequestParameterException;
import org.springframework.web.bind.annotation.ExceptionHandler;
import org.springframework.web.bind.annotation.RestControllerAdvice;
import org.springframework.web.context.request.RequestContextHolder;
import org.springframework.web.context.request.ServletRequestAttributes;
import org.springframework.web.context.request.WebRequest;
import org.springframework.web.method.annotation.MethodArgumentTypeMismatchException;
import org.springframework.web.servlet.mvc.method.annotation.ResponseEntityExceptionHandler;
import org.springframework.web.util.DisconnectedClientHelper;
import panelbook.wire.FieldProblem;
import panelbook.wire.Problem;
import tools.jackson.core.JacksonException;

/** Turns everything that goes wrong in a request into RFC 9457 problem details. */
@RestControllerAdvice
@Order(0)
class Problems extends ResponseEntityExceptionHandler {

    private static final Logger LOG = LoggerFactory.getLogger(Problems.class);

    private final ProblemPages pages;
    private final Map<String, String> constraintWords = new HashMap<>();

    Problems(ProblemPages pages, ObjectProvider<ConstraintWords> parts) {
        this.pages = pages;
        parts.forEach(part -> constraintWords.putAll(part.words()));
    }

    /** The problem of a refusal. */
    static Problem of(Refusal refusal) {
        var kind = refusal.kind();
        var errors = refusal.errors().isEmpty() ? null : refusal.errors();
        return new Problem(
                kind.type(), kind.title(), kind.status(), Objects.requireNonNull(refusal.getMessage()), null, errors);
    }

    @ExceptionHandler
    @Nullable
    ResponseEntity<Problem> refused(Refusal refusal) {
        return answer(of(refusal));
    }

    @ExceptionHandler
    @Nullable
    ResponseEntity<Problem> unreadable(InvalidParameterException parameter) {
        return answer(of(Refusal.invalid(List.of(new FieldProblem(
                "", "A parameter of the address cannot be read: write it in UTF-8, percent-encoded.")))));
    }

    @ExceptionHandler
    @Nullable
    ResponseEntity<Problem> overtaken(OptimisticLockingFailureException rival) {
        return answer(of(Etags.stale()));
    }

    @ExceptionHandler
    @Nullable
    ResponseEntity<Problem> collided(ConcurrencyFailureException rival) {
        return answer(of(Refusal.conflict("Another change was made at the same moment: try again.")));
    }

    @ExceptionHandler
    @Nullable
    ResponseEntity<Problem> refusedByDatabase(DataIntegrityViolationException violation) {
        var constraint = constraint(violation);
        var words = constraint == null ? null : constraintWords.get(constraint);
        if (words == null) {
            LOG.warn(
                    "The database refused a change: {}",
                    violation.getMostSpecificCause().getMessage());
            words = constraint == null
                    ? "The database refused the change: a value is not one it keeps."
                    : "It breaks the rule \"" + constraint.replace('_', ' ') + "\" of the book.";
        }
        return answer(of(Refusal.conflict(words)));
    }

    @ExceptionHandler
    @Nullable
    ResponseEntity<Problem> failed(Exception failure) {
        if (DisconnectedClientHelper.isClientDisconnectedException(failure)) {
            // whoever asked is gone: there is nobody to tell, and nothing failed here
            LOG.debug("The client went away", failure);
            return null;
        }
        var id = UUID.randomUUID();
        LOG.error("Request failed, {}", id, failure);
        return answer(new Problem(
                "/problems/failure",
                "Something failed here",
                500,
                "The service failed and has changed nothing. Its log says why, under " + id + ".",
                "urn:uuid:" + id,
                null));
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleHttpMessageNotReadable(
            HttpMessageNotReadableException unreadable,
            HttpHeaders headers,
            HttpStatusCode status,
            WebRequest request) {
        var trouble = unreadable.getCause() instanceof JacksonException json
                ? JsonTrouble.of(json)
                : new FieldProblem("", "The body is missing or was cut short.");
        return invalid(trouble);
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleTypeMismatch(
            TypeMismatchException mismatch, HttpHeaders headers, HttpStatusCode status, WebRequest request) {
        var name = mismatch instanceof MethodArgumentTypeMismatchException argument
                ? argument.getName()
                : String.valueOf(mismatch.getPropertyName());
        var type = mismatch.getRequiredType();
        return invalid(new FieldProblem(name, JsonTrouble.wrongValue(mismatch.getValue(), type)));
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleMissingServletRequestParameter(
            MissingServletRequestParameterException missing,
            HttpHeaders headers,
            HttpStatusCode status,
            WebRequest request) {
        return invalid(new FieldProblem(missing.getParameterName(), "This parameter is needed."));
    }

    @Override
    protected @Nullable ResponseEntity<Object> handleExceptionInternal(
            Exception failure, @Nullable Object body, HttpHeaders headers, HttpStatusCode status, WebRequest request) {
        if (status.is5xxServerError()) {
            return object(failed(failure));
        }
        var detail = failure instanceof ErrorResponse known ? known.getBody().getDetail() : null;
        return object(answer(of(status, detail), headers));
    }

    /** The problem of a status that has no refusal of its own; the detail is the title when there is none. */
    static Problem of(HttpStatusCode status, @Nullable String detail) {
        var title = title(status);
        var type = "/problems/" + title.toLowerCase(Locale.ROOT).replaceAll("[^a-z]+", "-");
        return new Problem(type, title, status.value(), detail == null ? title + "." : detail, null, null);
    }

    private static String title(HttpStatusCode status) {
        var known = HttpStatus.resolve(status.value());
        return known == null ? "Refused" : known.getReasonPhrase();
    }

    private static @Nullable String constraint(DataIntegrityViolationException violation) {
        return violation.getMostSpecificCause() instanceof PSQLException refused
                        && refused.getServerErrorMessage() != null
                ? refused.getServerErrorMessage().getConstraint()
                : null;
    }

    private @Nullable ResponseEntity<Object> invalid(FieldProblem trouble) {
        return object(answer(of(Refusal.invalid(List.of(trouble)))));
    }

    private @Nullable ResponseEntity<Problem> answer(Problem problem) {
        return answer(problem, HttpHeaders.EMPTY);
    }

    /** People who asked for a page get one. */
    private @Nullable ResponseEntity<Problem> answer(Problem problem, HttpHeaders headers) {
        if (RequestContextHolder.getRequestAttributes() instanceof ServletRequestAttributes now
                && now.getResponse() != null
                && pages.covers(now.getRequest().getServletPath())) {
            pages.show(now.getRequest(), now.getResponse(), problem);
            return null;
        }
        return forPrograms(problem, headers);
    }

    static ResponseEntity<Problem> forPrograms(Problem problem, HttpHeaders headers) {
        return ResponseEntity.status(problem.status())
                .headers(headers)
                .contentType(MediaType.APPLICATION_PROBLEM_JSON)
                .body(problem);
    }

    private static @Nullable ResponseEntity<Object> object(@Nullable ResponseEntity<Problem> answer) {
        return answer == null
                ? null
                : ResponseEntity.status(answer.getStatusCode())
                        .headers(answer.getHeaders())
                        .body(answer.getBody());
    }
}
