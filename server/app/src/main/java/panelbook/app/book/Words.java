package panelbook.app.book;

import java.util.Arrays;

/** The contract's words as the database keeps them. */
public final class Words {

    private Words() {}

    /** The constant that a word stands for; the database's checks see to it that there is one. */
    public static <E extends Enum<E>> E read(Class<E> type, String word) {
        return Arrays.stream(type.getEnumConstants())
                .filter(constant -> constant.toString().equals(word))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException(
                        "The database holds \"" + word + "\", which is no " + type.getSimpleName()));
    }
}
