package panelbook.app.rest;

import java.util.Arrays;
import java.util.Optional;

/** The words of the contract's enums: each constant's {@code toString()}. */
public final class Words {

    private Words() {}

    /** The constant of a word, or empty. */
    public static <E extends Enum<E>> Optional<E> find(Class<E> type, String word) {
        return Arrays.stream(type.getEnumConstants())
                .filter(constant -> constant.toString().equals(word))
                .findFirst();
    }

    /**
     * The constant of a word that must be right, since it comes from the database.
     *
     * @throws IllegalArgumentException when it is not
     */
    public static <E extends Enum<E>> E of(Class<E> type, String word) {
        return find(type, word).orElseThrow(() -> new IllegalArgumentException(type.getSimpleName() + ": " + word));
    }
}
