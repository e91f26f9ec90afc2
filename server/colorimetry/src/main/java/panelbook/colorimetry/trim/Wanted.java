package panelbook.colorimetry.trim;

import java.util.ArrayList;
import java.util.List;
import panelbook.colorimetry.Require;
import panelbook.colorimetry.drift.AgreedOffset;

/**
 * How a grey of the follower should move.
 *
 * @param level which grey
 * @param u change of u' that is wanted
 * @param v change of v' that is wanted
 * @param lnLuminance change of the natural logarithm of the luminance that is wanted
 */
public record Wanted(GreyLevel level, double u, double v, double lnLuminance) {
    public Wanted {
        Require.finite("wanted change of u'", u);
        Require.finite("wanted change of v'", v);
        Require.finite("wanted change of ln luminance", lnLuminance);
    }

    /**
     * From the offset that there is to the offset that should be.
     *
     * @param now follower minus hero as measured now
     * @param desired follower minus hero as agreed
     * @return for white and every grey that both offsets hold: desired less now
     */
    public static List<Wanted> between(AgreedOffset now, AgreedOffset desired) {
        List<Wanted> wanted = new ArrayList<>();
        now.white()
                .ifPresent(a -> desired.white()
                        .ifPresent(b -> now.luminance()
                                .ifPresent(la -> desired.luminance()
                                        .ifPresent(lb -> wanted.add(new Wanted(
                                                GreyLevel.WHITE,
                                                b.u().value() - a.u().value(),
                                                b.v().value() - a.v().value(),
                                                lb.value() - la.value()))))));
        for (AgreedOffset.Grey a : now.greys()) {
            for (AgreedOffset.Grey b : desired.greys()) {
                GreyLevel level = GreyLevel.of(a.signal());
                boolean known = wanted.stream().anyMatch(w -> w.level().equals(level));
                if (!known && level.equals(GreyLevel.of(b.signal()))) {
                    wanted.add(new Wanted(
                            level,
                            b.chromaticity().u().value() - a.chromaticity().u().value(),
                            b.chromaticity().v().value() - a.chromaticity().v().value(),
                            b.luminance().value() - a.luminance().value()));
                }
            }
        }
        return List.copyOf(wanted);
    }

    double of(Figure figure) {
        return switch (figure) {
            case U -> u;
            case V -> v;
            case LN_LUMINANCE -> lnLuminance;
        };
    }
}
