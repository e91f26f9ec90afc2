package panelbook.app.planning;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import panelbook.app.planning.plan.PlanCalibrator;
import panelbook.app.planning.plan.PlanProblem;
import panelbook.app.planning.plan.PlanRoom;
import panelbook.app.planning.plan.PlannedVisit;
import panelbook.wire.Calibrator;

/**
 * All that a plan is made from, as the book stood at one moment.
 *
 * @param now from when on visits may be laid
 * @param parts of rooms, by room
 * @param outside fixed visits to rooms that the plan does not look at, which keep calibrators busy
 * @param crew calibrators by index
 * @param roomless presets due within the plan whose displays stand in no room
 */
record Layout(
        Axis axis,
        Instant now,
        List<Part> parts,
        List<VisitRow> outside,
        List<Calibrator> crew,
        List<CrewShift> shifts,
        List<List<Integer>> travelMinutes,
        Map<UUID, Integer> facilities,
        List<RoomWorks.Piece> roomless,
        int roomsWithoutCalendar) {

    /** Weighted days beyond tolerance that a visit must save: a little more than an hour. */
    static final double VISIT_DAYS = 0.05;

    /** Weighted days beyond tolerance that moving a proposed visit must save. */
    static final double MOVE_DAYS = 0.5;

    Layout {
        parts = List.copyOf(parts);
    }

    /** Parts that are in the problem; their indices are those of its rooms. */
    List<Part> inProblem() {
        return parts.stream().filter(part -> part.plain() != null).toList();
    }

    /** The problem. */
    PlanProblem problem() {
        var inProblem = inProblem();
        var rooms = new ArrayList<PlanRoom>();
        inProblem.forEach(part -> rooms.add(Objects.requireNonNull(part.plain())));
        var fixed = new ArrayList<PlannedVisit>();
        var proposed = new ArrayList<PlannedVisit>();
        for (var room = 0; room < inProblem.size(); room++) {
            var part = inProblem.get(room);
            if (part.fixed() != null) {
                fixed.add(visit(room, part.fixed()));
            }
            for (var proposal : part.proposals()) {
                if (index(proposal.calibratorId()) >= 0) {
                    proposed.add(visit(room, proposal));
                }
            }
        }
        for (var row : outside) {
            fixed.add(visit(rooms.size(), row));
            rooms.add(busy(row));
        }
        return new PlanProblem(
                axis.dayStarts(), rooms, calibrators(), travelMinutes, fixed, proposed, MOVE_DAYS, VISIT_DAYS);
    }

    private PlanRoom busy(VisitRow row) {
        return new PlanRoom(
                row.roomId(),
                Objects.requireNonNull(facilities.get(row.facilityId())),
                Set.of(),
                0,
                1,
                List.of(),
                Collections.nCopies(axis.days() + 1, 0.0));
    }

    private List<PlanCalibrator> calibrators() {
        return IntStream.range(0, crew.size())
                .mapToObj(index -> new PlanCalibrator(
                        crew.get(index).id(),
                        Objects.requireNonNull(facilities.get(crew.get(index).homeFacilityId())),
                        crew.get(index).skills().stream().map(RoomWorks::skill).collect(Collectors.toSet()),
                        shifts.stream()
                                .filter(shift -> shift.calibrator() == index)
                                .map(CrewShift::span)
                                .toList()))
                .toList();
    }

    private PlannedVisit visit(int room, VisitRow row) {
        var start = axis.minute(row.startsAt());
        return new PlannedVisit(room, index(row.calibratorId()), start, Math.max(start + 1, axis.minute(row.endsAt())));
    }

    private int index(UUID calibratorId) {
        return IntStream.range(0, crew.size())
                .filter(index -> crew.get(index).id().equals(calibratorId))
                .findFirst()
                .orElse(-1);
    }
}
