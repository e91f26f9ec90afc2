package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.signal.Eotf;
import panelbook.colorimetry.signal.Target;
import panelbook.colorimetry.uncertainty.InstrumentUncertainty;
import panelbook.colorimetry.uncertainty.LinearCombination;
import panelbook.colorimetry.uncertainty.Measured;
import panelbook.colorimetry.uncertainty.Propagation;
import panelbook.colorimetry.uncertainty.Term;
import panelbook.colorimetry.verification.PatchVerification;

/** How sure the figures of single patches of a run are, as standard uncertainties. */
final class PatchUncertainty {

    private final Target target;
    private final RunMeasured run;
    private final InstrumentUncertainty meter;

    PatchUncertainty(Target target, RunMeasured run) {
        this.target = target;
        this.run = run;
        this.meter = run.measured().uncertainty();
    }

    /** Of a figure of the measured colour, in its unit. */
    double of(PatchVerification patch, ToDoubleFunction<XYZ> figure) {
        return Propagation.of(
                        List.of(new Measured(patch.reading().xyz(), meter)),
                        colours -> figure.applyAsDouble(colours[0]))
                .standardUncertainty();
    }

    /** Of the luminance error, %, where light is expected. */
    double ofLuminancePercent(PatchVerification patch) {
        var perPercent = 100 / patch.expected().y();
        var terms = new ArrayList<Term>();
        terms.add(meter.ofLuminance(perPercent, patch.reading().luminance()));
        if (!(target.eotf() instanceof Eotf.Pq)) {
            // what is expected here hangs on the white of the same run: the meter's own error cancels
            run.readings()
                    .white()
                    .ifPresent(white -> terms.add(meter.ofLuminance(
                            -perPercent * patch.reading().luminance() / white.luminance(), white.luminance())));
        }
        return LinearCombination.standardUncertainty(terms);
    }
}
