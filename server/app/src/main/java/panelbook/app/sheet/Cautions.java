package panelbook.app.sheet;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import panelbook.wire.Display;

/** The usual cautions, as far as they apply to what stands in a room. */
final class Cautions {

    private static final Pattern EMISSIVE = Pattern.compile("\\b(oled|plasma|crt|micro-?led|led wall)\\b");
    private static final Pattern PROJECTOR = Pattern.compile("\\bprojector\\b");

    private Cautions() {}

    static List<String> in(List<Display> displays) {
        var cautions = new ArrayList<String>();
        if (displays.isEmpty()) {
            return cautions;
        }
        var emissive = named(displays, EMISSIVE);
        if (!emissive.isEmpty()) {
            cautions.add("Static bright patches age emissive panels (" + emissive
                    + "): show a patch no longer than its reading takes and leave none standing.");
        }
        var projectors = named(displays, PROJECTOR);
        if (!projectors.isEmpty()) {
            cautions.add("Do not look into the beam of a projector (" + projectors + ").");
        }
        cautions.add("Flashing patches can harm photosensitive viewers: tell those in the room before a run begins.");
        cautions.add(
                "Cabinets are opened by qualified service staff only; local rules and the maker's instructions come"
                        + " first.");
        return cautions;
    }

    private static String named(List<Display> displays, Pattern technology) {
        return displays.stream()
                .filter(display -> technology
                        .matcher(display.panelTechnology().toLowerCase(Locale.ROOT))
                        .find())
                .map(Display::name)
                .collect(Collectors.joining(", "));
    }
}
