package panelbook.app.assessment;

import java.util.Comparator;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
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

    /**
     * What sign-offs say of how a preset was left.
     *
     * @param signed whether there is any on its baseline
     * @param nearest the closing run of the one that the subject's run is nearest to; null when there is none, and when the
     *     last one was signed without closing runs, since nothing tells then how the preset stood
     */
    record Signed(boolean signed, @Nullable RunMeasured nearest) {}

    /** What sign-offs on the baseline of a run say of how its preset was left. */
    Signed of(Subject subject) {
        var run = subject.run().run();
        var states = matches.statesOf(run.presetId(), run.takenAt());
        var last = states.stream().max(Comparator.comparing(SignedState::signedAt));
        if (last.isEmpty() || last.get().runId() == null) {
            return new Signed(last.isPresent(), null);
        }
        var nearest = states.stream()
                .flatMap(state -> Stream.ofNullable(state.runId()))
                .map(id -> subjects.whole(subject, id))
                .min(Comparator.comparingDouble(then -> Movement.between(then, subject.run())));
        return new Signed(true, nearest.orElse(null));
    }
}
