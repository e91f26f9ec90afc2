package panelbook.colorimetry.signalpath;

import java.util.function.DoubleFunction;
import panelbook.colorimetry.St2084;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.LuminanceRange;

/**
 * Light of a grey with three free figures: scale (of PQ a factor, else the luminance of white in cd/m2), black in cd/m2,
 * and top (of PQ in cd/m2, else a share of white).
 *
 * @param converter signal as sent to signal as the display takes it
 * @param eotf of the display, given its white
 * @param knee share of the top where the light begins to bend; 1 for a hard clip
 * @param blackAdds whether black is added to the light, or is the EOTF's own (a lift, or for PQ a clip)
 * @param scale bounds
 * @param black bounds, cd/m2
 * @param top bounds
 */
record DisplayModel(
        Converter converter, DoubleFunction<Eotf> eotf, double knee, boolean blackAdds, Box scale, Box black, Box top) {
    static final int FIGURES = 3;

    /** A change of range on the way: v to gain v + offset, held within 0 and ceiling. */
    record Converter(double gain, double offset, double ceiling) {
        double apply(double signal) {
            return Math.min(Math.max(gain * signal + offset, 0), ceiling);
        }
    }

    boolean isPq() {
        return eotf.apply(1) instanceof Eotf.Pq;
    }

    boolean endsBelowWhite() {
        return !isPq() && top.most() < 1;
    }

    boolean showsAboveWhite() {
        return !isPq() && top.most() > 1;
    }

    void luminances(double[] signals, double[] figures, double[] result) {
        if (isPq()) {
            pq(signals, figures, result);
        } else {
            relative(signals, figures, result);
        }
    }

    private void pq(double[] signals, double[] figures, double[] result) {
        for (int i = 0; i < signals.length; i++) {
            // the factor is that of an aged panel, which ages with its top
            double shown = figures[0] * rolledOff(St2084.luminance(converter.apply(signals[i])), figures[2]);
            result[i] = blackAdds ? shown + figures[1] : Math.max(shown, figures[1]);
        }
    }

    private void relative(double[] signals, double[] figures, double[] result) {
        double white = figures[0];
        double floor = Math.min(figures[1], white / 2);
        double lifted = blackAdds ? 0 : floor;
        var on = eotf.apply(white).on(new LuminanceRange(lifted, white));
        for (int i = 0; i < signals.length; i++) {
            double asked = on.luminance(converter.apply(signals[i]));
            result[i] = rolledOff(asked, figures[2] * white) + (floor - lifted);
        }
    }

    private double rolledOff(double light, double most) {
        double bend = knee * most;
        if (light <= bend) {
            return light;
        }
        if (knee >= 1) {
            return most;
        }
        double room = most - bend;
        return bend + room * -Math.expm1(-(light - bend) / room);
    }
}
