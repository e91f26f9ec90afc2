package panelbook.wire.files;

/** Numbers as run files write them: decimal digits, a point, an exponent; nothing that only a Java compiler would read. */
final class Numbers {

    private Numbers() {}

    /** Whether the text is a decimal number such as {@code 12}, {@code -0.5}, {@code .5} or {@code 1.2e-3}. */
    static boolean isDecimal(String text) {
        int i = sign(text, 0);
        int whole = digits(text, i);
        i += whole;
        int fraction = 0;
        if (i < text.length() && text.charAt(i) == '.') {
            fraction = digits(text, i + 1);
            i += 1 + fraction;
        }
        if (whole + fraction == 0) {
            return false;
        }
        if (i < text.length() && (text.charAt(i) | 0x20) == 'e') {
            int from = sign(text, i + 1);
            int exponent = digits(text, from);
            return exponent > 0 && from + exponent == text.length();
        }
        return i == text.length();
    }

    /** Whether the text would be a decimal number if its comma were a point. */
    static boolean hasDecimalComma(String text) {
        int comma = text.indexOf(',');
        return comma >= 0 && text.indexOf('.') < 0 && isDecimal(text.replace(',', '.'));
    }

    /** A whole number of up to nine digits without sign, or −1. */
    static int wholeOrMinusOne(String text) {
        if (text.isEmpty() || text.length() > 9 || digits(text, 0) != text.length()) {
            return -1;
        }
        return Integer.parseInt(text);
    }

    private static int sign(String text, int at) {
        return at < text.length() && (text.charAt(at) == '-' || text.charAt(at) == '+') ? at + 1 : at;
    }

    private static int digits(String text, int from) {
        int i = from;
        while (i < text.length() && text.charAt(i) >= '0' && text.charAt(i) <= '9') {
            i++;
        }
        return i - from;
    }
}
