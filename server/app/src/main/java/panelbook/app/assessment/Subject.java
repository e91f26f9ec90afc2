package panelbook.app.assessment;

import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.RunMeasured;

/** A preset with the run that it is to be judged by. */
final class Subject {

    private final PresetFacts preset;
    private final RunMeasured run;
    private @Nullable List<Figure> verification;

    Subject(PresetFacts preset, RunMeasured run) {
        this.preset = preset;
        this.run = run;
    }

    PresetFacts preset() {
        return preset;
    }

    RunMeasured run() {
        return run;
    }

    /** The run against the target of the preset; worked out once, since it goes through every reading. */
    List<Figure> verification() {
        if (verification == null) {
            verification = VerificationFigures.of(preset.target(), run);
        }
        return verification;
    }
}
