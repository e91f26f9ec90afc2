package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.app.planning.plan.PlannedVisit;
import panelbook.app.planning.plan.VisitPlan;
import panelbook.wire.PlanGap;
import panelbook.wire.PlanObstacle;
import panelbook.wire.PlanRest;

/** A layout with the visits that were laid, and what they leave. */
final class Laid {

    /** Expected days beyond tolerance that are not worth telling: a little more than an hour. */
    private static final double LEAST_BEYOND_DAYS = 0.05;

    /**
     * A visit that was laid.
     *
     * @param calibrator index in the crew; from its size on one that is only asked about
     */
    record Stop(Part part, int calibrator, Instant start, Instant end) {

        Instant warmUpFrom() {
            return start.minus(
                    Duration.ofMinutes(Objects.requireNonNull(part.plain()).warmUpMinutes()));
        }
    }

    private final Layout layout;
    private final VisitPlan plan;
    private final List<Stop> stops;
    private final Map<Part, Instant> visits = new IdentityHashMap<>();

    Laid(Layout layout, VisitPlan plan) {
        this.layout = layout;
        this.plan = plan;
        var parts = layout.inProblem();
        stops = plan.visits().stream()
                .filter(visit ->
                        visit.room() < parts.size() && parts.get(visit.room()).open())
                .map(visit -> stop(parts.get(visit.room()), visit))
                .toList();
        stops.forEach(stop -> visits.put(stop.part(), stop.start()));
        parts.stream()
                .filter(part -> part.fixed() != null)
                .forEach(part ->
                        visits.put(part, Objects.requireNonNull(part.fixed()).startsAt()));
    }

    private Stop stop(Part part, PlannedVisit visit) {
        var axis = layout.axis();
        return new Stop(part, visit.calibrator(), axis.at(visit.start()), axis.at(visit.end()));
    }

    /** Those that a person may still confirm; the fixed ones are left out. */
    List<Stop> stops() {
        return stops;
    }

    /** Weighted expected days beyond tolerance, were nobody to come. */
    double beyondDaysWithout() {
        return layout.parts().stream()
                        .mapToDouble(part -> part.importance() * sum(part.taken(), axis().days()))
                        .sum()
                + constant();
    }

    /** Weighted expected days beyond tolerance that are left. */
    double beyondDays() {
        return layout.parts().stream()
                        .mapToDouble(part -> part.importance() * sum(part.taken(), day(part)))
                        .sum()
                + constant();
    }

    /** As the planner counts, with what is left of work that it never saw. */
    double cost() {
        return plan.cost() + constant();
    }

    double bound() {
        return plan.bound() + constant();
    }

    private double constant() {
        return layout.parts().stream()
                        .mapToDouble(part -> part.importance() * sum(part.left(), axis().days()))
                        .sum()
                + sum(layout.roomless(), axis().days());
    }

    private static double sum(List<RoomWorks.Piece> pieces, int day) {
        return pieces.stream().mapToDouble(piece -> piece.daysBefore()[day]).sum();
    }

    private Axis axis() {
        return layout.axis();
    }

    /** The day of a part's visit; the number of days where it has none. */
    private int day(Part part) {
        var at = visits.get(part);
        return at == null ? axis().days() : axis().day(at);
    }

    /** What is left beyond tolerance, the gravest first. */
    List<PlanRest> rest() {
        record Weighted(double weight, PlanRest rest) {}
        var found = new ArrayList<Weighted>();
        for (var part : layout.parts()) {
            for (var piece : part.taken()) {
                rest(
                                piece,
                                visits.get(part),
                                day(part),
                                "No visit: " + gap(part).explanation())
                        .ifPresent(rest -> found.add(new Weighted(part.importance() * rest.beyondDays(), rest)));
            }
            for (var piece : part.left()) {
                var why = part.obstacle() == null
                        ? "Its work does not go into the same visit: left for another one."
                        : "No visit: " + part.explanation();
                rest(piece, null, axis().days(), why)
                        .ifPresent(rest -> found.add(new Weighted(part.importance() * rest.beyondDays(), rest)));
            }
        }
        for (var piece : layout.roomless()) {
            rest(piece, null, axis().days(), "No visit: its display stands in no room.")
                    .ifPresent(rest -> found.add(new Weighted(rest.beyondDays(), rest)));
        }
        return found.stream()
                .sorted(Comparator.comparingDouble((Weighted one) -> -one.weight())
                        .thenComparing(one -> one.rest().preset()))
                .map(Weighted::rest)
                .toList();
    }

    private Optional<PlanRest> rest(RoomWorks.Piece piece, @Nullable Instant visitAt, int day, String why) {
        var dueAt = piece.due().preset().dueAt();
        var beyond = piece.daysBefore()[day];
        if (dueAt == null || !dueAt.isBefore(axis().end()) || beyond < LEAST_BEYOND_DAYS) {
            return Optional.empty();
        }
        if (visitAt != null && (!dueAt.isAfter(layout.now()) || !visitAt.isAfter(dueAt))) {
            // what is due already cannot be helped before its visit
            return Optional.empty();
        }
        var late = visitAt == null ? why : "Its visit comes after it is due: nothing earlier was free.";
        return Optional.of(new PlanRest(
                piece.presetId(),
                piece.due().line().path(),
                dueAt,
                piece.due().preset().rules().get(0).reason(),
                visitAt,
                beyond,
                late));
    }

    /** Rooms without a visit although something is due there. */
    List<PlanGap> gaps() {
        return layout.parts().stream()
                .filter(part -> !visits.containsKey(part))
                .map(this::gap)
                .filter(gap -> gap.presets() > 0)
                .toList();
    }

    private PlanGap gap(Part part) {
        var presets = (int) Stream.concat(part.taken().stream(), part.left().stream())
                .filter(piece -> rest(piece, null, axis().days(), "").isPresent())
                .count();
        var obstacle = part.obstacle() == null ? PlanObstacle.DAYS_ARE_FULL : part.obstacle();
        var explanation = part.obstacle() == null ? "Other rooms save more with the same days." : part.explanation();
        return new PlanGap(part.roomId(), part.place().room(), presets, obstacle, explanation);
    }
}
