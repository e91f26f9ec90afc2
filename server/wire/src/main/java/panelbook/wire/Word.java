package panelbook.wire;

import java.util.Locale;

/** How a constant of the contract is spelled on the wire, in the database and on the command line. */
final class Word {

    private Word() {}

    /** The constant's name in lower case, with dashes. */
    static String of(Enum<?> constant) {
        return constant.name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
