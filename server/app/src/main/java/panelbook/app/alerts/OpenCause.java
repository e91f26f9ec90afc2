package panelbook.app.alerts;

import java.util.Set;
import java.util.UUID;
import panelbook.wire.AlertCause;

/**
 * An open alert as the tree of causes sees it.
 *
 * @param subjectId preset, room or instrument that it is about
 * @param touches presets that it names as touched as well
 */
record OpenCause(UUID id, AlertCause cause, Place place, UUID subjectId, Set<UUID> touches) {

    /** Where a cause lies: what stands later acts on what stands before it. */
    enum Place {
        /** A preset that is not the hero of its room. */
        FOLLOWER,
        HERO,
        /** What all displays of a room share: the feed. */
        ROOM,
        INSTRUMENT;

        boolean isPreset() {
            return this == FOLLOWER || this == HERO;
        }
    }

    /** Whether what this is about names all that the other is about. */
    boolean covers(OpenCause other) {
        return other.place.isPreset()
                ? touches.contains(other.subjectId)
                : !other.touches.isEmpty() && touches.containsAll(other.touches);
    }
}
