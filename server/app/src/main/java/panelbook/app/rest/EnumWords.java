package panelbook.app.rest;

import java.util.Arrays;
import java.util.stream.Collectors;
import org.springframework.core.convert.converter.Converter;
import org.springframework.core.convert.converter.ConverterFactory;

/** Reads the words of the contract in query parameters; a wrong word is answered with the right ones. */
@SuppressWarnings("rawtypes")
final class EnumWords implements ConverterFactory<String, Enum> {

    @Override
    public <T extends Enum> Converter<String, T> getConverter(Class<T> type) {
        return word -> Arrays.stream(type.getEnumConstants())
                .filter(constant -> constant.toString().equals(word))
                .findFirst()
                .orElseThrow(() -> new IllegalArgumentException(unknown(word, type)));
    }

    static String unknown(Object word, Class<?> type) {
        return "\"" + word + "\" is none of: " + words(type) + ".";
    }

    private static String words(Class<?> type) {
        return Arrays.stream(type.getEnumConstants()).map(Object::toString).collect(Collectors.joining(", "));
    }
}
