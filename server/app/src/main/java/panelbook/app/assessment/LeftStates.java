package panelbook.app.assessment;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.runs.RunMeasured;
import panelbook.wire.Purpose;

/** The states that presets were left in, and the figures of a run by itself, against its target and such a state. */
@Component
class LeftStates {

    private final Baselines baselines;
    private final SignedStates signedStates;
    private final Subjects subjects;

    LeftStates(Baselines baselines, SignedStates signedStates, Subjects subjects) {
        this.baselines = baselines;
        this.signedStates = signedStates;
        this.subjects = subjects;
    }

    /**
     * The state that a preset was left in when a run was taken. A follower that was matched since its baseline was moved off
     * its target on purpose: it is judged by what was signed off, not by target and baseline.
     *
     * @param run that shows it; null when it was signed without closing runs
     * @param signed whether a match left it so, rather than a calibration
     */
    record Left(@Nullable RunMeasured run, boolean signed) {

        @Nullable
        UUID runId() {
            return run == null ? null : run.id();
        }
    }

    /** The state that the subject's preset was left in when its run was taken; empty when nobody knows. */
    Optional<Left> at(Subject subject) {
        var run = subject.run().run();
        var states = signedStates.of(subject);
        return states.signed()
                ? Optional.of(new Left(states.nearest(), true))
                : baselines
                        .at(run.presetId(), run.takenAt())
                        .map(baseline -> new Left(subjects.whole(subject, baseline.runId()), false));
    }

    /** The figures of a run by itself: against its target, and against the state that its preset was left in. */
    static List<Figure> figures(Subject subject, Optional<Left> left) {
        var run = subject.run();
        var signed = left.isPresent() && left.get().signed();
        var figures = new ArrayList<Figure>();
        figures.add(TimeFigures.certificate(run.instrument(), run.run()));
        if (!signed || run.run().purpose() == Purpose.AS_LEFT) {
            figures.addAll(subject.verification());
        }
        figures.addAll(drift(left, run));
        return figures;
    }

    /** How far a run went from such a state. */
    static List<Figure> drift(Optional<Left> left, RunMeasured run) {
        return left.flatMap(state -> Optional.ofNullable(state.run())
                        .map(then -> OwnDriftFigures.of(then, state.signed() ? "the sign-off" : "the baseline", run)))
                .orElse(List.of());
    }
}
