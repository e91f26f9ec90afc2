package panelbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import panelbook.colorimetry.Chromaticity;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.verification.Verification;
import panelbook.wire.ReadingEntry;

/**
 * Figures of a run that cannot be judged by the service yet: what was measured against the target as it was last seen.
 * Figures only, no decision: limits, baseline and hero are the service's. Loaded only when a run is spooled.
 */
final class LocalCheck {

    private LocalCheck() {}

    /** The figures in one line. */
    static String figures(panelbook.wire.Target target, List<ReadingEntry> readings) {
        var verification = Verification.of(target(target), readings(readings));
        var figures = new ArrayList<String>();
        verification
                .whiteLuminanceErrorPercent()
                .ifPresent(error ->
                        figures.add(String.format(Locale.ROOT, "white %+.1f %%", Math.round(10 * error) / 10.0)));
        verification
                .whiteDeltaUv()
                .ifPresent(distance -> figures.add(String.format(Locale.ROOT, "white Δu′v′ %.4f", distance)));
        verification
                .deltaEItp()
                .ifPresent(e -> figures.add(
                        String.format(Locale.ROOT, "ΔE ITP mean %.2f, largest %.2f", e.mean(), e.maximum())));
        return figures.isEmpty() ? "no figures" : String.join(", ", figures);
    }

    static List<Reading> readings(List<ReadingEntry> entries) {
        return entries.stream()
                .map(r -> new Reading(new Patch(r.red(), r.green(), r.blue()), new XYZ(r.x(), r.y(), r.z())))
                .toList();
    }

    static Target target(panelbook.wire.Target target) {
        var p = target.primaries();
        return new Target(
                new RgbSpace(
                        new Chromaticity(p.redX(), p.redY()),
                        new Chromaticity(p.greenX(), p.greenY()),
                        new Chromaticity(p.blueX(), p.blueY()),
                        new Chromaticity(p.whiteX(), p.whiteY())),
                eotf(target),
                new CodeValues(SignalRange.valueOf(target.signalRange().name()), target.bitDepth()),
                new LuminanceRange(target.blackLuminance(), target.peakLuminance()));
    }

    private static Eotf eotf(panelbook.wire.Target target) {
        return switch (target.eotf()) {
            case PQ -> new Eotf.Pq();
            case HLG -> Eotf.Hlg.forPeak(target.peakLuminance());
            case BT1886 -> new Eotf.Bt1886();
            case POWER -> new Eotf.Power(Action.or(target.gamma(), 1.0));
        };
    }
}
