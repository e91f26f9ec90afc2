package panelbook.app.rest;

import java.time.Instant;
import java.time.LocalDate;
import java.util.Collection;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.wire.FieldProblem;
import tools.jackson.core.JacksonException;
import tools.jackson.core.exc.StreamReadException;
import tools.jackson.databind.exc.InvalidFormatException;
import tools.jackson.databind.exc.InvalidNullException;
import tools.jackson.databind.exc.MismatchedInputException;
import tools.jackson.databind.exc.UnrecognizedPropertyException;

/** Says what is wrong with a JSON body, and where. */
final class JsonTrouble {

    private JsonTrouble() {}

    static FieldProblem of(JacksonException trouble) {
        return new FieldProblem(pointer(trouble), detail(trouble) + place(trouble));
    }

    /** RFC 6901; empty for the whole document. */
    private static String pointer(JacksonException trouble) {
        return trouble.getPath().stream()
                .map(step -> "/" + (step.getPropertyName() == null ? step.getIndex() : escaped(step.getPropertyName())))
                .collect(Collectors.joining());
    }

    private static String escaped(String name) {
        return name.replace("~", "~0").replace("/", "~1");
    }

    private static String detail(JacksonException trouble) {
        if (trouble instanceof InvalidNullException) {
            return "Is missing or null, but is needed.";
        }
        if (trouble instanceof UnrecognizedPropertyException unknown) {
            return "Is not known here; known are: " + names(unknown.getKnownPropertyIds()) + ".";
        }
        if (trouble instanceof InvalidFormatException wrong) {
            return wrongValue(wrong.getValue(), wrong.getTargetType());
        }
        if (trouble instanceof MismatchedInputException wrong && wrong.getTargetType() != null) {
            return "Must be " + kind(wrong.getTargetType()) + ".";
        }
        if (trouble instanceof StreamReadException) {
            return "Is not JSON: " + firstLine(trouble.getOriginalMessage());
        }
        return firstLine(trouble.getOriginalMessage());
    }

    static String wrongValue(@Nullable Object value, @Nullable Class<?> type) {
        if (type != null && type.isEnum()) {
            return EnumWords.unknown(String.valueOf(value), type);
        }
        return "\"" + value + "\" is not " + (type == null ? "right" : kind(type)) + ".";
    }

    private static String kind(Class<?> type) {
        if (type == UUID.class) {
            return "a UUID";
        } else if (type == Instant.class) {
            return "a time in UTC such as 2026-11-25T09:30:00Z";
        } else if (type == LocalDate.class) {
            return "a date such as 2026-11-25";
        } else if (type == int.class || type == Integer.class || type == long.class || type == Long.class) {
            return "a whole number";
        } else if (type == double.class || type == Double.class) {
            return "a number";
        } else if (type == boolean.class || type == Boolean.class) {
            return "true or false";
        } else if (type == String.class || type.isEnum()) {
            return "a text";
        } else if (Collection.class.isAssignableFrom(type)) {
            return "a list";
        }
        return "an object";
    }

    private static String names(@Nullable Collection<Object> known) {
        return known == null
                ? "none"
                : known.stream().map(Object::toString).sorted().collect(Collectors.joining(", "));
    }

    private static String place(JacksonException trouble) {
        var location = trouble.getLocation();
        return location == null || location.getLineNr() < 1
                ? ""
                : " (line " + location.getLineNr() + ", column " + location.getColumnNr() + ")";
    }

    private static String firstLine(@Nullable String text) {
        return text == null ? "" : text.lines().findFirst().orElse("");
    }
}
