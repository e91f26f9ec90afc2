package panelbook.app.assessment;

import java.util.Comparator;
import java.util.Optional;
import org.springframework.stereotype.Component;
import panelbook.app.matching.Matches;
import panelbook.app.matching.SignedState;
import panelbook.app.runs.RunMeasured;

/**
 * The states that matching left displays in. A follower that was matched since its baseline was moved off its target on
 * purpose: its own drift is what it went from there.
 */
@Component
class SignedStates {

    private final Matches matches;
    private final Subjects subjects;

    SignedStates(Matches matches, Subjects subjects) {
        this.matches = matches;
        this.subjects = subjects;
    }

    /** The closing run of the sign-off that a run is nearest to; empty when the preset has none on its baseline. */
    Optional<RunMeasured> nearest(Subject subject) {
        var run = subject.run().run();
        return matches.statesOf(run.presetId(), run.takenAt()).stream()
                .map(SignedState::runId)
                .map(id -> subjects.whole(subject, id))
                .min(Comparator.comparingDouble(then -> Movement.between(then, subject.run())));
    }
}
