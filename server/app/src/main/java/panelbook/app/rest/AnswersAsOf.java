package panelbook.app.rest;

import java.lang.annotation.Documented;
import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/** The operation also answers as of an earlier moment: the query parameter as-of, an instant. */
@Documented
@Target(ElementType.METHOD)
@Retention(RetentionPolicy.RUNTIME)
public @interface AnswersAsOf {

    /** Name of the query parameter. */
    String PARAMETER = "as-of";
}
