package panelbook.demo;

import java.util.Locale;

/** The steps of the story in which runs come in; each is a folder of files. */
public enum DemoStep {
    /** The calibrator's visit: every display calibrated to its target. */
    AS_LEFT(1),
    /** Heroes and followers once they looked alike: some followers with their white moved by eye. */
    MATCH(2),
    /** A second visit, to one room whose follower got a new board: its steps are told in {@link DemoVisit}. */
    VISIT(3),
    /** Some weeks after the first visit, yesterday. */
    CHECKS(4),
    /** Two years of calibrations and checks before all that: told in {@link DemoRecord}. */
    RECORD(0),
    /** What probes checked since, in rooms that the story's calibrator did not visit. */
    SINCE(5);

    private final int number;

    DemoStep(int number) {
        this.number = number;
    }

    /** Its folder: numbered, so that a listing shows the order. */
    public String folder() {
        return number + "-" + name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
