package panelbook.app.rest;

import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.ConcurrentHashMap;
import org.springframework.core.MethodParameter;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.method.HandlerMethod;
import org.springframework.web.servlet.HandlerInterceptor;

/** Refuses a query parameter that the called method does not know: a misspelt filter would show everything. */
final class KnownParameters implements HandlerInterceptor {

    private final Map<HandlerMethod, Set<String>> known = new ConcurrentHashMap<>();

    @Override
    public boolean preHandle(HttpServletRequest request, HttpServletResponse response, Object handler) {
        if (request.getQueryString() == null || !(handler instanceof HandlerMethod method) || !ours(method)) {
            return true;
        }
        var names = known.computeIfAbsent(method, KnownParameters::names);
        for (var name : request.getParameterMap().keySet()) {
            // forms of pages carry one more
            if (!names.contains(name) && !name.equals("_csrf")) {
                var right = names.isEmpty() ? "none are known here" : "known are " + String.join(", ", names);
                throw Refusal.invalid(name, "There is no such parameter; " + right + ".");
            }
        }
        return true;
    }

    private static boolean ours(HandlerMethod method) {
        return method.getBeanType().getPackageName().startsWith("panelbook.");
    }

    static Set<String> names(HandlerMethod method) {
        var names = new TreeSet<String>();
        if (method.hasMethodAnnotation(AnswersAsOf.class)) {
            names.add(AnswersAsOf.PARAMETER);
        }
        for (var parameter : method.getMethodParameters()) {
            if (parameter.getParameterType() == Paging.class) {
                names.add("limit");
                names.add("after");
            } else if (parameter.hasParameterAnnotation(RequestParam.class)) {
                names.add(name(parameter));
            }
        }
        return names;
    }

    private static String name(MethodParameter parameter) {
        var annotation = Objects.requireNonNull(parameter.getParameterAnnotation(RequestParam.class));
        return annotation.name().isEmpty() ? parameter.getParameter().getName() : annotation.name();
    }
}
