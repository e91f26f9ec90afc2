package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * Problem details, RFC 9457, with the places at fault.
 *
 * @param type stable URI reference
 * @param detail what is wrong and what to do
 * @param errors each place that is wrong
 */
public record Problem(
        String type,
        String title,
        int status,
        String detail,
        @Nullable String instance,
        @Nullable List<FieldProblem> errors) {}
