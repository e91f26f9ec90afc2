package panelbook.app.board;

import java.util.Arrays;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import panelbook.app.rest.Refusal;

/** What a form of filters asks for: browsers send its empty fields, too. */
final class Asked {

    private Asked() {}

    /** A word of the contract; null when nothing was chosen. */
    static <T extends Enum<T>> @Nullable T word(Class<T> type, String name, String text) {
        if (text.isBlank()) {
            return null;
        }
        return Arrays.stream(type.getEnumConstants())
                .filter(constant -> constant.toString().equals(text))
                .findFirst()
                .orElseThrow(() -> Refusal.invalid(
                        name,
                        "\"" + text + "\" is none of: "
                                + Arrays.stream(type.getEnumConstants())
                                        .map(Object::toString)
                                        .collect(Collectors.joining(", "))
                                + "."));
    }

    /** An id; null when nothing was chosen. */
    static @Nullable UUID id(String name, String text) {
        if (text.isBlank()) {
            return null;
        }
        try {
            return UUID.fromString(text);
        } catch (IllegalArgumentException none) {
            throw Refusal.invalid(name, "\"" + text + "\" is no id: choose from the list.");
        }
    }
}
