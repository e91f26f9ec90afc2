package panelbook.app.board;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.util.Arrays;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.app.papers.PaperWords;

class TemplateWordsTest {

    @ParameterizedTest
    @ValueSource(classes = {BoardWords.class, MeasuredWords.class, PaperWords.class})
    void templatesCannotTakeOneMethodForAnother(Class<?> words) {
        assertThat(Arrays.stream(words.getDeclaredMethods())
                        .filter(method -> Modifier.isPublic(method.getModifiers()))
                        .map(Method::getName))
                .as("of two methods of one name a template calls either where an argument is null")
                .doesNotHaveDuplicates();
    }
}
