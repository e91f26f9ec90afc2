package panelbook.wire.files;

/**
 * What to do with tristimulus values in a unit that is not cd/m². Factors: NIST Special Publication 811 (2008), appendix
 * B.8, light.
 */
final class TristimulusUnits {

    private TristimulusUnits() {}

    /** The advice for a unit, as it was written; a sentence without its full stop. */
    static String advice(String unit) {
        return switch (Names.plain(unit).replace("/", "-").replace("²", "2")) {
            case "nit", "nits", "nt" -> "a nit is a cd/m², so the values stay as they are: only write cd/m² instead";
            case "fl", "footlambert", "foot-lambert", "ft-l" -> times("3.426259", "foot-lambert");
            case "lambert", "la" -> times("3183.099", "lambert");
            case "ml", "mla", "millilambert" -> times("3.183099", "millilambert");
            case "asb", "apostilb" -> times("0.3183099", "apostilb");
            case "sb", "stilb", "cd-cm2" -> times("10000", "cd/cm²");
            case "cd-ft2" -> times("10.76391", "cd/ft²");
            case "cd-in2" -> times("1550.003", "cd/in²");
            case "mcd-m2", "mnit", "mnits" -> times("0.001", "mcd/m²");
            case "kcd-m2", "knit", "knits" -> times("1000", "kcd/m²");
            case "rel", "relative", "norm", "normalised", "normalized", "pct", "percent", "%", "100", "y100", "n" ->
                "relative values lose the luminance: export absolute ones, or multiply them by the measured luminance"
                        + " of white in cd/m² (divided by 100 when white is 100)";
            case "lx", "lux" ->
                "lux is the light that falls on a surface, no luminance: measure with the instrument's"
                        + " luminance mode";
            default -> "convert the values to cd/m²";
        };
    }

    private static String times(String factor, String unit) {
        return "multiply each value by " + factor + " (1 " + unit + " = " + factor + " cd/m²)";
    }
}
