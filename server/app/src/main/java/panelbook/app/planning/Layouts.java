package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.calendars.Bookings;
import panelbook.app.calendars.BusyTime;
import panelbook.app.matching.Matches;
import panelbook.app.planning.crew.Absences;
import panelbook.app.planning.crew.Calibrators;
import panelbook.app.planning.crew.Holidays;
import panelbook.app.planning.crew.RoomPlannings;
import panelbook.app.planning.crew.TravelTimes;
import panelbook.app.planning.crew.WorkDays;
import panelbook.app.planning.crew.WorkDays.WorkDay;
import panelbook.app.planning.crew.WorkDurations;
import panelbook.app.planning.plan.PlanRoom;
import panelbook.app.planning.plan.Span;
import panelbook.wire.Calibrator;
import panelbook.wire.Holiday;
import panelbook.wire.PlanObstacle;
import panelbook.wire.TravelTime;

/** Gathers what a plan is made from. */
@Component
class Layouts {

    /** What falls due so soon after a visit is done in it. */
    static final int LOOK_AHEAD_DAYS = 14;

    /** Longer than any plan: nobody travels so long. */
    private static final int UNREACHABLE = 2_000_000;

    private static final int STEP_MINUTES = 15;

    private final PlanningBook book;
    private final DueLists dueLists;
    private final Matches matches;
    private final WorkDurations durations;
    private final Calibrators calibrators;
    private final Absences absences;
    private final Holidays holidays;
    private final TravelTimes travelTimes;
    private final RoomPlannings plannings;
    private final Bookings bookings;
    private final VisitBook visits;

    Layouts(
            PlanningBook book,
            DueLists dueLists,
            Matches matches,
            WorkDurations durations,
            Calibrators calibrators,
            Absences absences,
            Holidays holidays,
            TravelTimes travelTimes,
            RoomPlannings plannings,
            Bookings bookings,
            VisitBook visits) {
        this.book = book;
        this.dueLists = dueLists;
        this.matches = matches;
        this.durations = durations;
        this.calibrators = calibrators;
        this.absences = absences;
        this.holidays = holidays;
        this.travelTimes = travelTimes;
        this.plannings = plannings;
        this.bookings = bookings;
        this.visits = visits;
    }

    /** What a plan for a facility, or for all, would be made from. */
    Layout of(@Nullable UUID facilityId, Axis axis, Instant now) {
        return new Gathering(facilityId, axis, now).layout();
    }

    private final class Gathering {

        private final @Nullable UUID facilityId;
        private final Axis axis;
        private final Instant now;
        private final Instant from;
        private final List<Due> dues;
        private final RoomWorks works;
        private final List<VisitRow> fixed;
        private final Map<UUID, List<VisitRow>> proposals;
        private final List<Holiday> free;
        private final List<Calibrator> crew;
        private final Map<UUID, Integer> facilities;
        private final List<List<Integer>> travel;
        private final List<CrewShift> shifts;
        private final Map<UUID, List<BusyTime>> booked;
        private final Map<UUID, Integer> importances = plannings.importances();

        Gathering(@Nullable UUID facilityId, Axis axis, Instant now) {
            this.facilityId = facilityId;
            this.axis = axis;
            this.now = now;
            from = now.isAfter(axis.start()) ? now : axis.start();
            var lines = book.inUse(facilityId, null);
            dues = dueLists.of(lines, now);
            works = new RoomWorks(
                    durations.figures(),
                    matches.inForceOf(lines.stream().map(PresetLine::presetId).toList()),
                    axis);
            var ahead = visits.ahead(now, axis.end());
            fixed = ahead.stream()
                    .filter(row ->
                            row.fixed(now) || !inScope(row) || row.startsAt().isBefore(axis.start()))
                    .toList();
            proposals =
                    ahead.stream().filter(row -> !fixed.contains(row)).collect(Collectors.groupingBy(VisitRow::roomId));
            free = holidays.during(axis.from().minusDays(1), axis.until().plusDays(1));
            facilities = new LinkedHashMap<>();
            lines.forEach(line -> facilities.putIfAbsent(line.facilityId(), facilities.size()));
            var times = travelTimes.list();
            crew = crew(times);
            crew.forEach(one -> facilities.putIfAbsent(one.homeFacilityId(), facilities.size()));
            fixed.forEach(row -> facilities.putIfAbsent(row.facilityId(), facilities.size()));
            travel = travel(times);
            shifts = shifts();
            booked = bookings.of(
                    lines.stream()
                            .map(PresetLine::roomId)
                            .filter(Objects::nonNull)
                            .distinct()
                            .toList(),
                    axis.start(),
                    axis.end());
        }

        private boolean inScope(VisitRow row) {
            return facilityId == null || facilityId.equals(row.facilityId());
        }

        Layout layout() {
            var byRoom = dues.stream()
                    .filter(due -> due.line().roomId() != null)
                    .collect(Collectors.groupingBy(
                            due -> Objects.requireNonNull(due.line().roomId()),
                            LinkedHashMap::new,
                            Collectors.toList()));
            var parts = new ArrayList<Part>();
            byRoom.values().forEach(room -> parts.addAll(parts(room)));
            var withCalendar = bookings.roomsWithCalendar();
            var inParts = parts.stream()
                    .map(part -> part.fixed() == null ? null : part.fixed().id())
                    .toList();
            return new Layout(
                    axis,
                    from,
                    parts,
                    fixed.stream()
                            .filter(row -> !inParts.contains(row.id()))
                            .filter(row ->
                                    crew.stream().anyMatch(one -> one.id().equals(row.calibratorId())))
                            .toList(),
                    crew,
                    shifts,
                    travel,
                    facilities,
                    roomless(),
                    (int) parts.stream()
                            .map(Part::roomId)
                            .distinct()
                            .filter(room -> !withCalendar.contains(room))
                            .count());
        }

        private List<RoomWorks.Piece> roomless() {
            return dues.stream()
                    .filter(due -> due.line().roomId() == null && dueWithin(due))
                    .map(due -> new RoomWorks.Piece(
                            due, List.of(), Chances.of(due.preset()).daysBefore(axis)))
                    .toList();
        }

        private boolean dueWithin(Due due) {
            var at = due.preset().dueAt();
            return at != null && at.isBefore(axis.end());
        }

        private List<Part> parts(List<Due> room) {
            var place = room.get(0).line();
            var fixedHere = fixed.stream()
                    .filter(row -> row.roomId().equals(place.roomId()))
                    .toList();
            var parts = new ArrayList<Part>();
            var covered = new HashSet<UUID>();
            for (var row : fixedHere) {
                var pieces = room.stream()
                        .filter(due -> row.work().stream()
                                .anyMatch(work ->
                                        work.presetId().equals(due.line().presetId())))
                        .filter(due -> covered.add(due.line().presetId()))
                        .map(due -> new RoomWorks.Piece(
                                due, row.work(), Chances.of(due.preset()).daysBefore(axis)))
                        .toList();
                parts.add(fixedPart(place, row, pieces));
            }
            var rest = room.stream()
                    .filter(due -> !covered.contains(due.line().presetId()))
                    .toList();
            if (rest.stream().anyMatch(this::dueWithin)) {
                parts.add(openPart(place, rest, fixedHere));
            }
            return parts;
        }

        private int importance(PresetLine place) {
            return importances.getOrDefault(place.roomId(), 1);
        }

        private Part fixedPart(PresetLine place, VisitRow row, List<RoomWorks.Piece> pieces) {
            var plain = new PlanRoom(
                    row.roomId(),
                    Objects.requireNonNull(facilities.get(place.facilityId())),
                    Set.of(),
                    0,
                    1,
                    List.of(),
                    beyondDays(pieces, importance(place)));
            return new Part(place, importance(place), row, pieces, List.of(), null, "", plain, List.of());
        }

        private Part openPart(PresetLine place, List<Due> room, List<VisitRow> fixedHere) {
            var by = axis.end().plus(Duration.ofDays(LOOK_AHEAD_DAYS));
            var units = works.units(room, due -> RoomWorks.recalibrationDue(due, by), true, "", by);
            var pieces = units.stream().flatMap(unit -> unit.pieces().stream()).toList();
            var hours = FreeHours.of(
                    axis,
                    from,
                    place.zone(),
                    taken(place, fixedHere),
                    day -> WorkDays.holiday(day, place.facilityId(), free).isPresent());
            var facility = Objects.requireNonNull(facilities.get(place.facilityId()));
            var warmUp = works.warmUpMinutes(pieces);
            var skills = RoomWorks.skills(pieces);
            var fit = new Fit(facility, skills, hours, warmUp);
            var cut = RoomWorks.cut(units, fit.longest());
            var weight = importance(place);
            var before = proposals.getOrDefault(place.roomId(), List.of());
            if (cut.taken().isEmpty()) {
                var obstacle = fit.obstacle();
                return new Part(
                        place,
                        weight,
                        null,
                        List.of(),
                        cut.left(),
                        obstacle,
                        fit.explanation(obstacle, pieces),
                        null,
                        before);
            }
            var plain = new PlanRoom(
                    Objects.requireNonNull(place.roomId()),
                    facility,
                    skills,
                    warmUp,
                    cut.taken().stream().mapToInt(RoomWorks.Piece::minutes).sum(),
                    hours,
                    beyondDays(cut.taken(), weight));
            return new Part(place, weight, null, cut.taken(), cut.left(), null, "", plain, before);
        }

        private List<Stretch> taken(PresetLine place, List<VisitRow> fixedHere) {
            return Stream.concat(
                            booked.getOrDefault(place.roomId(), List.of()).stream()
                                    .map(busy -> new Stretch(busy.from(), busy.until())),
                            fixedHere.stream().map(row -> new Stretch(row.warmUpFrom(), row.endsAt())))
                    .toList();
        }

        private List<Double> beyondDays(List<RoomWorks.Piece> pieces, int weight) {
            return IntStream.rangeClosed(0, axis.days())
                    .mapToObj(day -> weight
                            * pieces.stream()
                                    .mapToDouble(piece -> piece.daysBefore()[day])
                                    .sum())
                    .toList();
        }

        /** How the hours of a room meet those of the calibrators who know its displays. */
        private final class Fit {

            private final List<CrewShift> skilled;
            private final List<CrewShift> reachable;
            private final int facility;
            private final List<Span> hours;
            private final int warmUp;
            private final Set<String> skills;

            Fit(int facility, Set<String> skills, List<Span> hours, int warmUp) {
                this.facility = facility;
                this.hours = hours;
                this.warmUp = warmUp;
                this.skills = skills;
                skilled = shifts.stream()
                        .filter(shift -> knows(crew.get(shift.calibrator()), skills))
                        .toList();
                reachable = skilled.stream()
                        .filter(shift -> way(shift) < UNREACHABLE)
                        .toList();
            }

            private int way(CrewShift shift) {
                var home = Objects.requireNonNull(
                        facilities.get(crew.get(shift.calibrator()).homeFacilityId()));
                return travel.get(home).get(facility);
            }

            int longest() {
                return reachable.stream()
                        .mapToInt(shift -> FreeHours.longest(hours, warmUp, shift.span(), way(shift)))
                        .max()
                        .orElse(0);
            }

            PlanObstacle obstacle() {
                if (crew.stream().noneMatch(one -> knows(one, skills))) {
                    return PlanObstacle.NO_SKILL;
                }
                if (!skilled.isEmpty() && reachable.isEmpty()) {
                    return PlanObstacle.NO_TRAVEL_TIME;
                }
                return longest() <= 0 ? PlanObstacle.NO_FREE_HOURS : PlanObstacle.TOO_LONG;
            }

            String explanation(PlanObstacle obstacle, List<RoomWorks.Piece> pieces) {
                return switch (obstacle) {
                    case NO_SKILL ->
                        crew.isEmpty()
                                ? "There is no calibrator who could come."
                                : "No calibrator who could come calibrates " + String.join(" and ", skills) + ".";
                    case NO_TRAVEL_TIME ->
                        "Nobody said how long it takes there from where the calibrators for "
                                + String.join(" and ", skills) + " are at home.";
                    case NO_FREE_HOURS ->
                        skilled.isEmpty()
                                ? "No calibrator for " + String.join(" and ", skills) + " works within the plan."
                                : "The hours in which the room is free, warm-up of " + warmUp
                                        + " minutes included, and a calibrator works never meet.";
                    case TOO_LONG ->
                        "Its shortest piece of work takes "
                                + pieces.stream()
                                        .mapToInt(RoomWorks.Piece::minutes)
                                        .min()
                                        .orElse(0)
                                + " minutes, and the room is free for a calibrator for " + longest() + " at most.";
                    case DAYS_ARE_FULL -> "Other rooms save more with the same days.";
                };
            }
        }

        private static boolean knows(Calibrator calibrator, Set<String> skills) {
            return calibrator.skills().isEmpty()
                    || calibrator.skills().stream()
                            .map(RoomWorks::skill)
                            .collect(Collectors.toSet())
                            .containsAll(skills);
        }

        /** Those who can come at all, and those who have a visit there already. */
        private List<Calibrator> crew(List<TravelTime> times) {
            var fixedIds = fixed.stream()
                    .filter(this::inScope)
                    .map(VisitRow::calibratorId)
                    .collect(Collectors.toSet());
            return calibrators.all().stream()
                    .filter(one -> fixedIds.contains(one.id()) || one.retiredAt() == null && comes(one, times))
                    .toList();
        }

        private boolean comes(Calibrator one, List<TravelTime> times) {
            return facilityId == null
                    || one.homeFacilityId().equals(facilityId)
                    || times.stream()
                            .anyMatch(time -> time.minutes() != null
                                    && Set.of(time.oneFacilityId(), time.otherFacilityId())
                                            .equals(Set.of(one.homeFacilityId(), facilityId)));
        }

        private List<List<Integer>> travel(List<TravelTime> times) {
            var size = facilities.size();
            var minutes = new ArrayList<List<Integer>>();
            for (var one = 0; one < size; one++) {
                var row = new ArrayList<>(Collections.nCopies(size, UNREACHABLE));
                row.set(one, 0);
                minutes.add(row);
            }
            for (var time : times) {
                var one = facilities.get(time.oneFacilityId());
                var other = facilities.get(time.otherFacilityId());
                if (one != null && other != null && time.minutes() != null) {
                    minutes.get(one).set(other, time.minutes());
                    minutes.get(other).set(one, time.minutes());
                }
            }
            return minutes;
        }

        private List<CrewShift> shifts() {
            var first = axis.from().minusDays(1);
            var last = axis.until().plusDays(1);
            var away = absences.during(first, last);
            var found = new ArrayList<CrewShift>();
            for (var index = 0; index < crew.size(); index++) {
                if (crew.get(index).retiredAt() == null) {
                    for (var work : WorkDays.of(crew.get(index), first, last, away, free)) {
                        add(found, index, work);
                    }
                }
            }
            return found;
        }

        private void add(List<CrewShift> found, int index, WorkDay work) {
            var start = axis.minuteAfter(work.from().isAfter(from) ? work.from() : from, STEP_MINUTES);
            var begin = work.from().isAfter(from) ? Math.max(0, axis.minute(work.from())) : start;
            var end = Math.min(axis.minute(work.to()), axis.minute(axis.end()));
            if (begin < end) {
                found.add(new CrewShift(index, work.day(), new Span(begin, end)));
            }
        }
    }
}
