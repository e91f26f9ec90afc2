package panelbook.colorimetry.signalpath;

import java.util.Locale;
import java.util.stream.Collectors;

/** A diagnosis in words, the same wherever it is shown. */
public final class DiagnosisText {
    private static final double MOST_ODDS = 1e6;

    private DiagnosisText() {}

    /**
     * The word of an explanation.
     *
     * @param e the explanation
     * @return lower case with dashes, such as "narrow-expanded-as-full" or "wrong-eotf-power-2.4"
     */
    public static String word(Explanation e) {
        String kind = e.kind().name().toLowerCase(Locale.ROOT).replace('_', '-');
        return e.eotf().map(shown -> kind + "-" + word(shown)).orElse(kind);
    }

    private static String word(KnownEotf eotf) {
        return switch (eotf) {
            case PQ -> "pq";
            case HLG -> "hlg";
            case BT_1886 -> "bt1886";
            case POWER_2_2 -> "power-2.2";
            case POWER_2_4 -> "power-2.4";
            case POWER_2_6 -> "power-2.6";
        };
    }

    /**
     * An explanation for a person.
     *
     * @param e the explanation
     * @return such as "narrow range expanded as full"
     */
    public static String phrase(Explanation e) {
        return switch (e.kind()) {
            case AS_INTENDED -> "as intended";
            case FULL_SQUEEZED_TO_NARROW -> "full range squeezed to narrow";
            case NARROW_EXPANDED_AS_FULL -> "narrow range expanded as full";
            case WRONG_EOTF ->
                "wrong EOTF, " + e.eotf().map(DiagnosisText::phrase).orElseThrow();
            case PEAK_LIMITED -> "peak limited";
        };
    }

    private static String phrase(KnownEotf eotf) {
        return switch (eotf) {
            case PQ -> "PQ";
            case HLG -> "HLG";
            case BT_1886 -> "BT.1886";
            case POWER_2_2 -> "power 2.2";
            case POWER_2_4 -> "power 2.4";
            case POWER_2_6 -> "power 2.6";
        };
    }

    /**
     * What to check first.
     *
     * @param d the diagnosis
     * @return a phrase that follows "check first"
     */
    public static String firstCheck(Diagnosis d) {
        return switch (d.likeliest().explanation().firstCheck()) {
            case NOTHING ->
                d.suspect() ? "what is shown, the preset that is on, and all that sits in the feed" : "nothing";
            case OUTPUT_RANGE_OF_SOURCE -> "the range that the source puts out, and a converter in the feed";
            case CONVERTER_OR_INPUT_RANGE_OF_DISPLAY ->
                "a converter in the feed, and the input range that the display is set to";
            case EOTF_OF_PRESET -> "the preset that is on, its EOTF, and signalling that switches it";
            case LUMINANCE_LIMITER_OF_PRESET -> "a luminance limiter, power saving or tone mapping in the preset";
        };
    }

    /**
     * The whole of it in one or two sentences.
     *
     * @param d the diagnosis
     * @return what, how sure, what to check first
     */
    public static String summary(Diagnosis d) {
        String alike = d.notToldApart().isEmpty()
                ? ""
                : " This ramp cannot tell it from: "
                        + d.notToldApart().stream().map(DiagnosisText::phrase).collect(Collectors.joining("; ")) + ".";
        String what = phrase(d.likeliest().explanation());
        if (!d.suspect()) {
            return "Signal path as intended, " + odds(d) + "." + alike;
        }
        String found = d.explained()
                ? "Signal path suspect: " + what + ", " + odds(d) + "."
                : "Signal path suspect: no known explanation fits; " + what + " comes closest.";
        return found + alike + " Check first: " + firstCheck(d) + ". Make no trims before.";
    }

    /** The margin is twice the logarithm of the odds. */
    private static String odds(Diagnosis d) {
        double odds = Math.exp(d.margin() / 2);
        String toOne = odds >= MOST_ODDS
                ? "more than a million to one"
                : "about " + (odds < 10 ? String.format(Locale.ROOT, "%.1f", odds) : Math.round(odds)) + " to one";
        return toOne + " against " + phrase(d.runnerUp().explanation());
    }
}
