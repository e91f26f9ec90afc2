package panelbook.demo;

import java.util.List;
import panelbook.colorimetry.simulation.SimulatedDisplay;
import panelbook.wire.Trim;

/** What the controls of the demo's displays do. Invented figures. */
final class DemoClicks {
    /** Of a channel's light, by one click of its gain. */
    private static final double GAIN = 0.008;

    /** Light that one click of the black level adds to black, cd/m2. */
    private static final double BLACK_LEVEL = 0.012;

    private DemoClicks() {}

    /** A display with its controls turned from their calibrated settings. */
    static SimulatedDisplay turned(SimulatedDisplay calibrated, DemoTarget target, List<Trim> settings) {
        return calibrated.toBuilder()
                .gains(gain("red", settings), gain("green", settings), gain("blue", settings))
                .leak(target.colorimetric().aims().black() + BLACK_LEVEL * clicks("black-level", settings))
                .build();
    }

    private static double gain(String channel, List<Trim> settings) {
        return 1 + GAIN * clicks("gain." + channel, settings);
    }

    private static int clicks(String control, List<Trim> settings) {
        return settings.stream()
                .filter(trim -> trim.control().equals(control))
                .mapToInt(Trim::clicks)
                .sum();
    }
}
