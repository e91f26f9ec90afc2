package panelbook.app.planning;

import java.util.List;
import java.util.Objects;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.app.planning.plan.PlanRoom;
import panelbook.wire.PlanObstacle;

/**
 * A room as a plan sees it. A room has a part for each visit that is fixed already and one for what these leave.
 *
 * @param facility index in the problem
 * @param importance of the room
 * @param fixed visit that stays as it is; null where one is to be laid
 * @param taken work of its visit, in order
 * @param left work that does not fit into its visit
 * @param obstacle why no visit can be laid; null when one can
 * @param explanation of the obstacle; empty when there is none
 * @param plain for the problem; null when there is nothing to lay
 * @param proposals visits that the plan before laid, by start
 */
record Part(
        PresetLine place,
        int importance,
        @Nullable VisitRow fixed,
        List<RoomWorks.Piece> taken,
        List<RoomWorks.Piece> left,
        @Nullable PlanObstacle obstacle,
        String explanation,
        @Nullable PlanRoom plain,
        List<VisitRow> proposals) {

    UUID roomId() {
        return Objects.requireNonNull(place.roomId());
    }

    /** Whether a visit may be laid. */
    boolean open() {
        return fixed == null && plain != null;
    }
}
