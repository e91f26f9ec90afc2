package panelbook.wire;

/** What a rule measures. Every figure of a tolerance set and every finding names one. */
public enum Metric {
    /** Luminance of white against the peak aim, magnitude. */
    WHITE_LUMINANCE_ERROR(Rule.VERIFICATION, "%", false),
    /** Distance of white from the target white. */
    WHITE_CHROMATICITY_ERROR(Rule.VERIFICATION, "u′v′", false),
    /** Largest luminance error of the greys judged. */
    GREY_LUMINANCE_ERROR(Rule.VERIFICATION, "%", false),
    /** Largest distance of a grey from the target white. */
    GREY_CHROMATICITY_ERROR(Rule.VERIFICATION, "u′v′", false),
    /** Mean over the patches. */
    DELTA_E_ITP_MEAN(Rule.VERIFICATION, "ΔE ITP", false),
    /** 95th percentile over the patches. */
    DELTA_E_ITP_P95(Rule.VERIFICATION, "ΔE ITP", false),
    /** Largest over the patches. */
    DELTA_E_ITP_MAX(Rule.VERIFICATION, "ΔE ITP", false),
    /** Mean over the patches. */
    DELTA_E_2000_MEAN(Rule.VERIFICATION, "ΔE 2000", false),
    /** 95th percentile over the patches. */
    DELTA_E_2000_P95(Rule.VERIFICATION, "ΔE 2000", false),
    /** Largest over the patches. */
    DELTA_E_2000_MAX(Rule.VERIFICATION, "ΔE 2000", false),
    /** Luminance of black. */
    BLACK_LUMINANCE(Rule.VERIFICATION, "cd/m²", false),
    /** White over black, sequential. */
    CONTRAST(Rule.VERIFICATION, ":1", true),
    /** Share of the target's u′v′ triangle that the display reaches. */
    GAMUT_COVERAGE(Rule.VERIFICATION, "%", true),
    /** Change of peak luminance since the baseline, magnitude. */
    OWN_DRIFT_LUMINANCE(Rule.OWN_DRIFT, "%", false),
    /** Way that white went since the baseline. */
    OWN_DRIFT_WHITE(Rule.OWN_DRIFT, "u′v′", false),
    /** Change of black since the baseline, magnitude. */
    OWN_DRIFT_BLACK(Rule.OWN_DRIFT, "cd/m²", false),
    /** Change of contrast since the baseline, magnitude. */
    OWN_DRIFT_CONTRAST(Rule.OWN_DRIFT, "%", false),
    /** Largest difference on a patch that both runs hold. */
    OWN_DRIFT_DELTA_E_ITP(Rule.OWN_DRIFT, "ΔE ITP", false),
    /** What peak luminance stepped by between two runs, ageing apart, magnitude. */
    STEP_LUMINANCE(Rule.STEP, "%", false),
    /** How far white stepped between two runs, ageing apart. */
    STEP_WHITE(Rule.STEP, "u′v′", false),
    /** Residual of white. */
    HERO_DRIFT_WHITE(Rule.HERO_DRIFT, "u′v′", false),
    /** Residual of peak luminance, magnitude. */
    HERO_DRIFT_LUMINANCE(Rule.HERO_DRIFT, "%", false),
    /** Largest residual of a grey. */
    HERO_DRIFT_GREY_WHITE(Rule.HERO_DRIFT, "u′v′", false),
    /** Largest luminance residual of a grey, magnitude. */
    HERO_DRIFT_GREY_LUMINANCE(Rule.HERO_DRIFT, "%", false),
    /** Days since the baseline was taken. */
    RECALIBRATION_DAYS(Rule.RECALIBRATION, "d", false),
    /** Panel hours since the baseline was taken. */
    RECALIBRATION_PANEL_HOURS(Rule.RECALIBRATION, "h", false),
    /** Days by which the certificate had expired when the run was taken. */
    CERTIFICATE_DAYS(Rule.CERTIFICATE, "d", false),
    /** Matches that rest on an earlier baseline. */
    MATCHES_IN_QUESTION(Rule.AGREEMENT, "matches", false);

    private final String word = Word.of(this);
    private final Rule rule;
    private final String unit;
    private final boolean lowerLimit;

    Metric(Rule rule, String unit, boolean lowerLimit) {
        this.rule = rule;
        this.unit = unit;
        this.lowerLimit = lowerLimit;
    }

    /** The rule that judges this metric. */
    public Rule rule() {
        return rule;
    }

    /** The unit of value, limit and uncertainty. */
    public String unit() {
        return unit;
    }

    /** Whether the limit is the least that is tolerated rather than the most. */
    public boolean lowerLimit() {
        return lowerLimit;
    }

    /** Its name in words, for people: white luminance error; ΔE ITP, largest. */
    public String words() {
        return switch (this) {
            case DELTA_E_ITP_MEAN -> "ΔE ITP, mean";
            case DELTA_E_ITP_P95 -> "ΔE ITP, 95 % of patches";
            case DELTA_E_ITP_MAX -> "ΔE ITP, largest";
            case DELTA_E_2000_MEAN -> "ΔE 2000, mean";
            case DELTA_E_2000_P95 -> "ΔE 2000, 95 % of patches";
            case DELTA_E_2000_MAX -> "ΔE 2000, largest";
            case OWN_DRIFT_DELTA_E_ITP -> "own drift, ΔE ITP";
            default -> word.replace('-', ' ');
        };
    }

    /** The word used on the wire, in the database and on the command line. */
    @Override
    public String toString() {
        return word;
    }
}
