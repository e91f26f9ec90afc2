package panelbook.colorimetry.trim;

import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.uncertainty.Estimate;

/** What a guard says of a trim. */
public sealed interface Verdict {
    /** Nothing speaks against it. */
    record Allowed() implements Verdict {}

    /**
     * It must not stand, unless a person overrides with a reason.
     *
     * @param reason why
     * @param first the reading that the other is held against: the lower level of the ramp, or black as calibrated
     * @param second the reading that shows it: the top of the ramp, or black now
     * @param figure what was decided on: of a channel the rise over the top, ln(second / first), after the trim; of black
     *     its rise in cd/m2
     * @param limit what that figure should have kept to, same unit
     */
    record Refused(Reason reason, Reading first, Reading second, Estimate figure, double limit) implements Verdict {}

    /**
     * Over or under the limit, but inside the uncertainty: measure again.
     *
     * @param first as in {@link Refused}
     * @param second as in {@link Refused}
     * @param figure as in {@link Refused}
     * @param limit as in {@link Refused}
     */
    record Undecided(Reading first, Reading second, Estimate figure, double limit) implements Verdict {}

    /**
     * The readings do not tell.
     *
     * @param missing what to measure
     */
    record NotMeasured(Missing missing) implements Verdict {}

    /** Why a trim is refused. */
    enum Reason {
        /** The channel no longer rises over the top of its ramp. */
        CHANNEL_CLIPS,
        /** Black rose beyond its tolerance. */
        FLOOR_RISES
    }

    /** What to measure. */
    enum Missing {
        /** No two levels of the channel's ramp in both runs that rose before the trim. */
        TOP_OF_RAMP,
        /** No black in one of the runs. */
        BLACK,
        /** Greys, but no patch of each primary alone to tell the channels apart. */
        PRIMARIES
    }
}
