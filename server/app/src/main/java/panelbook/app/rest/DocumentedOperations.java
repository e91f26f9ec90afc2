package panelbook.app.rest;

import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.IntegerSchema;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.media.StringSchema;
import io.swagger.v3.oas.models.parameters.Parameter;
import io.swagger.v3.oas.models.responses.ApiResponse;
import io.swagger.v3.oas.models.responses.ApiResponses;
import java.lang.annotation.Annotation;
import java.math.BigDecimal;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.springdoc.core.customizers.GlobalOperationCustomizer;
import org.springframework.core.annotation.AnnotatedElementUtils;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.PutMapping;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.mvc.method.annotation.SseEmitter;

/**
 * Says of each operation how it pages and with which statuses it answers. The contract's manners are the same for all, so
 * they are derived from a method's signature rather than repeated at each method.
 */
final class DocumentedOperations implements GlobalOperationCustomizer {

    @Override
    public Operation customize(Operation operation, HandlerMethod method) {
        operation.setTags(List.of(tag(method)));
        operation.setSummary(summary(method));
        if (has(method, Paging.class)) {
            operation.addParametersItem(limit()).addParametersItem(after());
        }
        if (method.hasMethodAnnotation(AnswersAsOf.class)) {
            operation.addParametersItem(asOf());
        }
        operation.setResponses(responses(operation.getResponses(), method));
        return operation;
    }

    private static ApiResponses responses(ApiResponses found, HandlerMethod method) {
        var responses = new ApiResponses();
        var content =
                streams(method) ? events() : found.values().iterator().next().getContent();
        successes(responses, content, method);
        problem(responses, 400, "The request is not right; errors point to the places.");
        problem(responses, 401, "No token, or one that does not hold.");
        problem(responses, 403, "The role of the token does not cover this.");
        if (hasAnnotation(method, PathVariable.class)) {
            problem(responses, 404, "There is no such thing.");
        }
        if (method.hasMethodAnnotation(RefusesByContent.class)) {
            problem(responses, 409, "The book does not hold what the answer is made from.");
        }
        if (isPost(method) || isPut(method)) {
            problem(responses, 409, "It contradicts what is in the book.");
            problem(responses, 413, "More than one request takes.");
            problem(responses, 415, "The body is of another kind than is taken.");
        }
        if (hasAnnotation(method, RequestHeader.class) && !streams(method)) {
            problem(responses, 412, "It was edited since it was read.");
            problem(responses, 428, "Without If-Match.");
        }
        problem(responses, 500, "The service failed; the log says why.");
        return responses;
    }

    private static void successes(ApiResponses responses, Content content, HandlerMethod method) {
        // made with one status only, e.g. a token, whose secret cannot be shown again
        var fixed = AnnotatedElementUtils.findMergedAnnotation(method.getMethod(), ResponseStatus.class);
        if (fixed != null) {
            success(responses, fixed.code().value(), "Done.", content);
        } else if (method.hasMethodAnnotation(Adds.class)) {
            success(responses, 201, "Added.", content);
            success(responses, 200, "The same had been added before.", content);
        } else {
            success(responses, 200, "Done.", content);
        }
    }

    private static void success(ApiResponses responses, int status, String description, Content content) {
        responses.addApiResponse(
                String.valueOf(status),
                new ApiResponse().description(description).content(content));
    }

    private static void problem(ApiResponses responses, int status, String description) {
        Schema<?> schema = new Schema<>().$ref("#/components/schemas/Problem");
        var content = new Content().addMediaType("application/problem+json", new MediaType().schema(schema));
        responses.addApiResponse(
                String.valueOf(status),
                new ApiResponse().description(description).content(content));
    }

    private static boolean streams(HandlerMethod method) {
        return SseEmitter.class.isAssignableFrom(method.getMethod().getReturnType());
    }

    private static Content events() {
        return new Content().addMediaType("text/event-stream", new MediaType().schema(new StringSchema()));
    }

    private static Parameter asOf() {
        return new Parameter()
                .in("query")
                .name(AnswersAsOf.PARAMETER)
                .description("An instant with its offset: the answer as the book stood then.")
                .schema(new StringSchema().format("date-time"));
    }

    private static Parameter limit() {
        return new Parameter()
                .in("query")
                .name("limit")
                .description("Most items of the page.")
                .schema(new IntegerSchema()
                        .minimum(BigDecimal.ONE)
                        .maximum(BigDecimal.valueOf(Paging.MAX_LIMIT))
                        ._default(Paging.DEFAULT_LIMIT));
    }

    private static Parameter after() {
        return new Parameter()
                .in("query")
                .name("after")
                .description("\"next\" of the page before, as it is.")
                .schema(new StringSchema());
    }

    private static String tag(HandlerMethod method) {
        var parts = method.getBeanType().getPackageName().split("\\.", -1);
        return parts[parts.length - 1];
    }

    /** The method's name as words: addPanelHours is "Add panel hours". */
    private static String summary(HandlerMethod method) {
        var words = method.getMethod().getName().replaceAll("([A-Z])", " $1").toLowerCase(Locale.ROOT);
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    private static boolean has(HandlerMethod method, Class<?> parameterType) {
        return Arrays.asList(method.getMethod().getParameterTypes()).contains(parameterType);
    }

    private static boolean hasAnnotation(HandlerMethod method, Class<? extends Annotation> annotation) {
        return Arrays.stream(method.getMethodParameters())
                .anyMatch(parameter -> parameter.hasParameterAnnotation(annotation));
    }

    private static boolean isPost(HandlerMethod method) {
        return method.hasMethodAnnotation(PostMapping.class);
    }

    private static boolean isPut(HandlerMethod method) {
        return method.hasMethodAnnotation(PutMapping.class);
    }
}
