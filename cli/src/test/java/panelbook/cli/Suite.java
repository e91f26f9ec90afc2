package panelbook.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;
import panelbook.colorimetry.RgbSpace;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.signal.Target;

/** A facility with one room, a hero and a follower, and runs of them as a display that meets its target measures. */
final class Suite {

    static final String MAIN = "Suite 1/Main/HDR";
    static final String CLIENT = "Suite 1/Client/HDR";

    private static final Target TARGET = new Target(
            RgbSpace.P3_D65, new Eotf.Pq(), new CodeValues(SignalRange.FULL, 10), new LuminanceRange(0.005, 1000));
    private static final List<Patch> PATCHES = List.of(
            Patch.grey(0),
            Patch.grey(256),
            Patch.grey(512),
            Patch.grey(640),
            Patch.grey(769),
            Patch.grey(1023),
            new Patch(769, 0, 0),
            new Patch(0, 769, 0),
            new Patch(0, 0, 769));

    private Suite() {}

    static Path book(Desk desk) {
        return desk.write(
                "north.yaml",
                "name: North",
                "timeZone: Europe/Lisbon",
                "toleranceSets:",
                "  - name: House",
                "    description: our own",
                "    warmUpMinutes: 30",
                "    hysteresis: 0.1",
                "    conformanceProbability: 0.95",
                "    tolerances:",
                "      - {metric: white-luminance-error, limit: 5, basis: house policy}",
                "      - {metric: white-chromaticity-error, limit: 0.004, basis: house policy}",
                "      - {metric: own-drift-luminance, limit: 5, basis: house policy}",
                "      - {metric: own-drift-white, limit: 0.004, basis: house policy}",
                "      - {metric: hero-drift-white, limit: 0.004, basis: house policy}",
                "      - {metric: hero-drift-luminance, limit: 6, basis: house policy}",
                "targets:",
                "  - name: HDR 1000",
                "    primaries: {redX: 0.68, redY: 0.32, greenX: 0.265, greenY: 0.69, blueX: 0.15, blueY: 0.06, whiteX: 0.3127, whiteY: 0.329}",
                "    eotf: pq",
                "    signalRange: full",
                "    bitDepth: 10",
                "    peakLuminance: 1000",
                "    blackLuminance: 0.005",
                "    toleranceSet: House",
                "instruments:",
                "  - name: Meter 1",
                "    kind: colorimeter",
                "    luminanceUncertaintyPercent: 2",
                "    luminanceRepeatabilityPercent: 0.1",
                "    chromaticityUncertainty: 0.002",
                "    chromaticityRepeatability: 0.0001",
                "    luminanceFloor: 0.0005",
                "    certificates:",
                "      - {number: K-1, issuedOn: 2026-02-10, expiresOn: 2027-02-09}",
                "rooms:",
                "  - name: Suite 1",
                "    displays:",
                "      - {name: Main, model: M-31, panelTechnology: oled, presets: [{name: HDR, target: HDR 1000, hero: true}]}",
                "      - {name: Client, model: M-55, panelTechnology: lcd, presets: [{name: HDR, target: HDR 1000}]}");
    }

    /** The command that opens a match of the two with everything said that is asked. */
    static String[] opening(String operator, String... more) {
        var command = new ArrayList<>(List.of("match", "open", "--follower", CLIENT, "--hero", MAIN));
        command.addAll(List.of("--operator", operator, "--instrument", "Meter 1"));
        command.addAll(List.of("--follower-on", "75", "--hero-on", "80", "--lights", "yes"));
        command.addAll(List.of(more));
        return command.toArray(String[]::new);
    }

    /**
     * A run file.
     *
     * @param luminance factor on everything
     * @param blue factor on Z, which moves white
     */
    static String run(
            Desk desk, String name, String preset, String purpose, String takenAt, double luminance, double blue) {
        return run(desk, name, preset, purpose, takenAt, luminance, blue, patch -> patch);
    }

    /**
     * A run file of a display that does not show what it is sent.
     *
     * @param shown what it shows for a patch
     */
    static String run(
            Desk desk,
            String name,
            String preset,
            String purpose,
            String takenAt,
            double luminance,
            double blue,
            UnaryOperator<Patch> shown) {
        var lines = new ArrayList<>(List.of(
                "# preset: " + preset,
                "# instrument: Meter 1",
                "# purpose: " + purpose,
                "# operator: Mara",
                "# taken-at: " + takenAt,
                "# minutes-since-power-on: 60",
                "# readings: " + PATCHES.size(),
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2"));
        var expected = TARGET.on(TARGET.aims());
        for (var patch : PATCHES) {
            XYZ xyz = expected.of(shown.apply(patch));
            lines.add(patch.red() + "," + patch.green() + "," + patch.blue() + "," + luminance * xyz.x() + ","
                    + luminance * xyz.y() + "," + luminance * blue * xyz.z());
        }
        desk.write(name, lines.toArray(String[]::new));
        return name;
    }
}
