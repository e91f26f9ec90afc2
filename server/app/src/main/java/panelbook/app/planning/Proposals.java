package panelbook.app.planning;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import panelbook.wire.PlanDraft;
import panelbook.wire.PlanMove;
import panelbook.wire.VisitState;

/** Puts the visits of a plan in the place of those that the plan before proposed. */
final class Proposals {

    private final VisitBook visits;
    private final PlanDraft draft;
    private final Layout layout;
    private final Instant now;

    Proposals(VisitBook visits, PlanDraft draft, Layout layout, Instant now) {
        this.visits = visits;
        this.draft = draft;
        this.layout = layout;
        this.now = now;
    }

    /**
     * Replaces them.
     *
     * @param asRow a visit as it stands in the book, with an id of its own
     * @return what is elsewhere now, or dropped; in the order of the visits as they were
     */
    List<PlanMove> replace(Laid laid, Function<Laid.Stop, VisitRow> asRow) {
        var before = new ArrayList<>(visits.proposals().stream()
                .filter(row -> draft.facilityId() == null || draft.facilityId().equals(row.facilityId()))
                .filter(row -> row.startsAt().isAfter(now)
                        ? !row.startsAt().isBefore(layout.axis().start())
                        : !row.endsAt().isAfter(now))
                .toList());
        var moves = new ArrayList<PlanMove>();
        var toInsert = new ArrayList<VisitRow>();
        var toUpdate = new ArrayList<VisitRow>();
        var moved = new ArrayList<VisitRow>();
        for (var stop : laid.stops()) {
            var wanted = asRow.apply(stop);
            var old = takeOld(before, wanted);
            if (old == null) {
                toInsert.add(wanted);
                continue;
            }
            var placed = inPlaceOf(old, wanted);
            if (sameTime(old, wanted)) {
                if (!old.work().equals(wanted.work())
                        || !old.endsAt().equals(wanted.endsAt())
                        || !old.warmUpFrom().equals(wanted.warmUpFrom())) {
                    moved.add(old);
                    toUpdate.add(placed);
                }
            } else {
                moved.add(old);
                toUpdate.add(placed);
                moves.add(move(old, wanted));
            }
        }
        before.removeIf(old -> beyond(old)
                && laid.stops().stream().noneMatch(stop -> stop.part().roomId().equals(old.roomId())));
        before.forEach(old -> moves.add(move(old, null)));
        // those that make room go first, so that two may change places
        moved.forEach(old -> visits.update(old.with(VisitState.DROPPED, false, old.reason())));
        before.forEach(old -> visits.update(old.with(VisitState.DROPPED, false, whyDropped(old))));
        toUpdate.forEach(visits::update);
        toInsert.forEach(visits::insert);
        moves.sort(Comparator.comparing(PlanMove::fromStart).thenComparing(PlanMove::visitId));
        return moves;
    }

    private static @Nullable VisitRow takeOld(List<VisitRow> before, VisitRow wanted) {
        var found = before.stream()
                .filter(old -> old.roomId().equals(wanted.roomId()))
                .min(Comparator.comparing((VisitRow old) -> !sameTime(old, wanted))
                        .thenComparing(VisitRow::startsAt)
                        .thenComparing(VisitRow::id));
        found.ifPresent(before::remove);
        return found.orElse(null);
    }

    private static boolean sameTime(VisitRow old, VisitRow wanted) {
        return old.calibratorId().equals(wanted.calibratorId())
                && old.startsAt().equals(wanted.startsAt());
    }

    /** The visit keeps its id, so that calendars move it instead of showing another. */
    private static VisitRow inPlaceOf(VisitRow old, VisitRow wanted) {
        return new VisitRow(
                old.id(),
                wanted.roomId(),
                wanted.facilityId(),
                wanted.room(),
                wanted.zone(),
                wanted.calibratorId(),
                wanted.calibrator(),
                wanted.warmUpFrom(),
                wanted.startsAt(),
                wanted.endsAt(),
                VisitState.PROPOSED,
                false,
                wanted.work(),
                null,
                wanted.planId(),
                wanted.changedAt(),
                wanted.changedBy(),
                old.version());
    }

    private boolean beyond(VisitRow old) {
        return !old.startsAt().isBefore(layout.axis().end());
    }

    private String whyDropped(VisitRow old) {
        return old.endsAt().isAfter(now) ? "a later plan has no visit there" : "it passed without being confirmed";
    }

    private static PlanMove move(VisitRow old, @Nullable VisitRow wanted) {
        return new PlanMove(
                old.id(),
                old.room(),
                old.calibrator(),
                old.startsAt(),
                wanted == null ? null : wanted.calibrator(),
                wanted == null ? null : wanted.startsAt());
    }
}
