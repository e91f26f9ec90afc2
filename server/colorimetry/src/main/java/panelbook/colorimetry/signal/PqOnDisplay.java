package panelbook.colorimetry.signal;

import panelbook.colorimetry.St2084;

/** PQ, clipped where the display ends at either side. */
final class PqOnDisplay extends DisplayEotf {
    private final LuminanceRange range;

    PqOnDisplay(LuminanceRange range) {
        this.range = range;
    }

    @Override
    double channel(double signal) {
        return range.clip(St2084.luminance(signal));
    }

    @Override
    double inverseChannel(double channel) {
        return St2084.signal(range.clip(channel));
    }
}
