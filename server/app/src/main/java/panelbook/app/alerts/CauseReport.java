package panelbook.app.alerts;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AffectedFollower;
import panelbook.wire.AlertCause;
import panelbook.wire.Finding;

/**
 * What is known now of one cause on one subject.
 *
 * @param subjectKind what the subject is
 * @param subject path of the preset or name of the instrument
 * @param facilityId null when the subject belongs to none
 * @param roomId null when the subject stands in none
 * @param state whether the cause is there, gone, or neither for certain
 * @param headline for people, one sentence
 * @param followers that the cause touches as well
 * @param findings that show it, the gravest first
 */
public record CauseReport(
        AlertCause cause,
        SubjectKind subjectKind,
        UUID subjectId,
        String subject,
        @Nullable UUID facilityId,
        @Nullable UUID roomId,
        State state,
        String headline,
        List<AffectedFollower> followers,
        List<Finding> findings) {

    /** What an alert can be about. */
    public enum SubjectKind {
        /** A preset of a display. */
        PRESET,
        /** A meter. */
        INSTRUMENT;

        @Override
        public String toString() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** Whether the cause is there. */
    public enum State {
        /** There: opens an alert, or keeps the open one up to date. */
        PRESENT,
        /** Neither there nor gone for certain: opens nothing, and closes nothing. */
        LINGERING,
        /** Gone by more than the hysteresis: closes the open alert. */
        GONE
    }
}
