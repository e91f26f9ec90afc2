package panelbook.app.alerts;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AffectedFollower;
import panelbook.wire.AlertCause;
import panelbook.wire.Finding;

/**
 * What is known now of one cause on one subject.
 *
 * @param subjectKind what the subject is
 * @param subject path of the preset or room, or name of the instrument
 * @param facilityId null when the subject belongs to none
 * @param roomId null when the subject stands in none
 * @param headline for people, one sentence
 * @param followers that the cause touches as well
 * @param findings that show it, each under its slot, the gravest first; none when nothing shows it now
 * @param evidence what the findings rest on, such as a run: once a person settled the alert, the same opens none again
 * @param lingering slots whose figures are not clear of their limits: an alert that one of them held open stays open
 */
public record CauseReport(
        AlertCause cause,
        SubjectKind subjectKind,
        UUID subjectId,
        String subject,
        @Nullable UUID facilityId,
        @Nullable UUID roomId,
        String headline,
        List<AffectedFollower> followers,
        String evidence,
        Map<String, Finding> findings,
        Set<String> lingering) {

    /** What an alert can be about. */
    public enum SubjectKind {
        /** A preset of a display. */
        PRESET,
        /** A room: the feed and whatever else its displays share. */
        ROOM,
        /** A meter. */
        INSTRUMENT;

        @Override
        public String toString() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }

    /** Whether something shows the cause now. */
    boolean present() {
        return !findings.isEmpty();
    }
}
