package panelbook.demo;

import java.util.Locale;

/** The steps of the story in which runs come in; each is a folder of files. */
public enum DemoStep {
    /** The calibrator's visit: every display calibrated to its target. */
    AS_LEFT,
    /** Heroes and followers once they looked alike: some followers with their white moved by eye. */
    MATCH,
    /** A second visit, to one room whose follower got a new board: its steps are told in {@link DemoVisit}. */
    VISIT,
    /** Some weeks after the first visit, yesterday. */
    CHECKS;

    /** Its folder: numbered, so that a listing shows the order. */
    public String folder() {
        return (ordinal() + 1) + "-" + name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
