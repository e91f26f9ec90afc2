package panelbook.app.planning.plan;

/** What sums of days are told apart by. */
final class Tolerance {
    /** Weighted days: costs nearer to each other than that are alike. */
    static final double COST = 1e-9;

    private Tolerance() {}
}
