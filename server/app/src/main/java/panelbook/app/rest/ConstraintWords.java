package panelbook.app.rest;

import java.util.Map;

/** What a part says when the database refuses a change: a bean of each part that has constraints to put into words. */
@FunctionalInterface
public interface ConstraintWords {

    /** For each constraint, by name, what is wrong and what to do. */
    Map<String, String> words();
}
