package panelbook.colorimetry.trim;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import panelbook.colorimetry.drift.MeasuredRun;
import panelbook.colorimetry.signal.CodeValues;
import panelbook.colorimetry.signal.Patch;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Readings;
import panelbook.colorimetry.signal.SignalRange;
import panelbook.colorimetry.simulation.Instrument;
import panelbook.colorimetry.simulation.Patches;
import panelbook.colorimetry.simulation.TrimmedDisplay;

/** A simulated display on the bench: turned, and read between turns. */
final class Bench {
    static final CodeValues CODES = new CodeValues(SignalRange.FULL, 10);
    static final List<Control> GAINS =
            List.of(new Control("gain", "red"), new Control("gain", "green"), new Control("gain", "blue"));
    static final List<Control> BIASES =
            List.of(new Control("bias", "red"), new Control("bias", "green"), new Control("bias", "blue"));
    static final Control BLACK_LEVEL = Control.of("black level");

    /** Black, 10 %, half and white. */
    static final List<Patch> GREYS = List.of(Patch.grey(0), Patch.grey(102), Patch.grey(512), Patch.grey(1023));

    private final Instrument meter;
    private final Random random;
    private final List<Trial> trials = new ArrayList<>();
    private TrimmedDisplay display;
    private KeyedRun last;
    private int runs;

    Bench(TrimmedDisplay display, Instrument meter, Random random) {
        this.display = display;
        this.meter = meter;
        this.random = random;
        this.last = read();
    }

    static TrimmedDisplay turned(TrimmedDisplay display, Control control, int clicks) {
        if (control.equals(BLACK_LEVEL)) {
            return display.blackLevel(clicks);
        }
        return GAINS.contains(control)
                ? display.gain(GAINS.indexOf(control), clicks)
                : display.bias(BIASES.indexOf(control), clicks);
    }

    /** Turns a control and reads. */
    void turn(Control control, int clicks) {
        display = turned(display, control, clicks);
        KeyedRun before = last;
        last = read();
        trials.add(new Trial(control, clicks, before, last));
    }

    /** Turns a control without reading. */
    void turnBlind(Control control, int clicks) {
        display = turned(display, control, clicks);
    }

    KeyedRun read() {
        List<Reading> readings = display.measure(CODES, GREYS, meter, random);
        last = new KeyedRun("run " + runs++, run(readings, meter));
        return last;
    }

    KeyedRun last() {
        return last;
    }

    TrimmedDisplay display() {
        return display;
    }

    List<Trial> trials() {
        return List.copyOf(trials);
    }

    static MeasuredRun run(List<Reading> readings, Instrument meter) {
        return new MeasuredRun(Readings.of(CODES, readings), meter.uncertainty("bench"));
    }

    static MeasuredRun ramp(TrimmedDisplay display, Instrument meter, Random random) {
        List<Patch> patches = new ArrayList<>(Patches.check(CODES, 20));
        return run(display.measure(CODES, patches, meter, random), meter);
    }
}
