package panelbook.colorimetry.signalpath;

import java.util.List;
import panelbook.colorimetry.signal.Reading;
import panelbook.colorimetry.signal.Target;

/** The part of a grey ramp from black to white, as signals and luminances in cd/m2. */
record Ramp(double[] signals, double[] luminances) {

    static Ramp of(Target target, List<Reading> greys, RampNoise noise) {
        for (Reading r : greys) {
            if (!r.patch().isGrey()) {
                throw new IllegalArgumentException(
                        "patch " + r.patch() + " is no grey; a signal path is told from greys alone");
            }
        }
        List<Reading> within = greys.stream()
                .filter(r -> r.patch().red() >= target.codes().black()
                        && r.patch().red() <= target.codes().white())
                .toList();
        long levels = within.stream().map(Reading::patch).distinct().count();
        if (levels < SignalPath.LEAST_LEVELS) {
            throw new IllegalArgumentException("a signal path is told from at least " + SignalPath.LEAST_LEVELS
                    + " greys from black to white, but there are " + levels + "; measure a longer ramp");
        }
        double brightest = within.stream().mapToDouble(Reading::luminance).max().orElseThrow();
        if (brightest <= 10 * noise.floor()) {
            throw new IllegalArgumentException("the brightest grey reads " + brightest
                    + " cd/m2, next to no light; check that the meter is on the display");
        }
        return new Ramp(
                within.stream()
                        .mapToDouble(r -> target.codes().toSignal(r.patch().red()))
                        .toArray(),
                within.stream().mapToDouble(Reading::luminance).toArray());
    }

    int size() {
        return signals.length;
    }

    double brightest() {
        double most = 0;
        for (double l : luminances) {
            most = Math.max(most, l);
        }
        return most;
    }

    double darkest() {
        double least = Double.POSITIVE_INFINITY;
        for (double l : luminances) {
            least = Math.min(least, l);
        }
        return least;
    }
}
