package panelbook.app.planning;

import java.time.LocalDate;
import panelbook.app.planning.plan.Span;

/**
 * A stretch of a calibrator's work within a plan.
 *
 * @param calibrator index in the problem
 * @param day in the calibrator's time zone
 */
record CrewShift(int calibrator, LocalDate day, Span span) {

    /** A day of a calibrator. */
    record CrewDay(int calibrator, LocalDate day) {}

    CrewDay crewDay() {
        return new CrewDay(calibrator, day);
    }
}
