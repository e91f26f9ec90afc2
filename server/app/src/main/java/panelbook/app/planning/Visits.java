package panelbook.app.planning;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.access.Caller;
import panelbook.app.database.Rows;
import panelbook.app.matching.Matches;
import panelbook.app.planning.crew.Calibrators;
import panelbook.app.planning.crew.WorkDurations;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Etags;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.wire.Calibrator;
import panelbook.wire.Page;
import panelbook.wire.Role;
import panelbook.wire.Visit;
import panelbook.wire.VisitDraft;
import panelbook.wire.VisitDrop;
import panelbook.wire.VisitMove;
import panelbook.wire.VisitPin;
import panelbook.wire.VisitState;

/** What people do with visits. All changes take turns with each other and with plans. */
@Component
class Visits {

    private static final Duration LATE = Duration.ofDays(1);
    private static final int LOOK_AHEAD_DAYS = Layouts.LOOK_AHEAD_DAYS;
    private static final int MOST_MINUTES = 1440;

    private final VisitBook book;
    private final VisitChecks checks;
    private final PlanningBook planning;
    private final DueLists dueLists;
    private final Matches matches;
    private final WorkDurations durations;
    private final Calibrators calibrators;
    private final Clock clock;

    Visits(
            VisitBook book,
            VisitChecks checks,
            PlanningBook planning,
            DueLists dueLists,
            Matches matches,
            WorkDurations durations,
            Calibrators calibrators,
            Clock clock) {
        this.book = book;
        this.checks = checks;
        this.planning = planning;
        this.dueLists = dueLists;
        this.matches = matches;
        this.durations = durations;
        this.calibrators = calibrators;
        this.clock = clock;
    }

    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    Page<Visit> page(VisitFilter filter, Paging paging) {
        var page = book.page(filter, paging);
        return new Page<>(checks.views(page.items()), page.next());
    }

    @Transactional(readOnly = true)
    Visit get(UUID id) {
        return view(row(id));
    }

    /** Adds a visit, confirmed and pinned; the same draft again is harmless. */
    @Transactional
    Added<Visit> add(VisitDraft draft) {
        var lines = planning.inUse(null, draft.roomId());
        check(draft, lines);
        var calibrator = calibrators.get(draft.calibratorId());
        own(calibrator.name());
        book.lock();
        var there = book.find(draft.id());
        if (there.isPresent()) {
            var same = there.get().roomId().equals(draft.roomId())
                    && (there.get().version() > 1 || there.get().startsAt().equals(Rows.kept(draft.startsAt())));
            Repeats.mustBeSame(same, "visit", draft.id());
            return new Added<>(view(there.get()), false);
        }
        var row = row(draft, lines, calibrator);
        mustFit(row, draft.insist());
        book.insert(row);
        return new Added<>(get(draft.id()), true);
    }

    private void check(VisitDraft draft, List<PresetLine> lines) {
        var known = lines.stream().map(PresetLine::presetId).collect(Collectors.toSet());
        var calibrator = calibrators.find(draft.calibratorId());
        var wrong = new Checks()
                .that(planning.isRoom(draft.roomId()), "/roomId", "There is no room " + draft.roomId() + ".")
                .that(
                        calibrator.isPresent() && calibrator.get().retiredAt() == null,
                        "/calibratorId",
                        "There is no calibrator " + draft.calibratorId() + " in use.")
                .that(
                        draft.startsAt().isAfter(clock.instant().minus(LATE)),
                        "/startsAt",
                        "Must not lie more than a day in the past.");
        for (var i = 0; i < draft.presetIds().size(); i++) {
            wrong.that(
                    known.contains(draft.presetIds().get(i)),
                    "/presetIds/" + i,
                    "No preset " + draft.presetIds().get(i) + " in use stands in the room.");
        }
        if (draft.minutes() != null) {
            wrong.range("/minutes", draft.minutes(), 1, MOST_MINUTES);
        }
        reason(wrong, draft.reason(), draft.insist()).refuse();
    }

    private static Checks reason(Checks checks, @Nullable String reason, boolean insist) {
        return checks.text("/reason", reason, 10_000)
                .that(!insist || reason != null && !reason.isBlank(), "/reason", "Whoever insists gives a reason.");
    }

    private VisitRow row(VisitDraft draft, List<PresetLine> lines, Calibrator calibrator) {
        var start = Rows.kept(draft.startsAt());
        var pieces = pieces(draft, lines, start);
        if (pieces.isEmpty()) {
            throw Refusal.invalid(
                    "/presetIds", "Nothing in the room is due by then: name the presets that are to be recalibrated.");
        }
        var line = lines.get(0);
        var works = works(pieces.stream().map(piece -> piece.due().line()).toList(), start);
        var sum = pieces.stream().mapToInt(RoomWorks.Piece::minutes).sum();
        return new VisitRow(
                draft.id(),
                draft.roomId(),
                line.facilityId(),
                line.room(),
                line.zone(),
                calibrator.id(),
                calibrator.name(),
                start.minus(Duration.ofMinutes(works.warmUpMinutes(pieces))),
                start,
                start.plus(Duration.ofMinutes(draft.minutes() == null ? sum : draft.minutes())),
                VisitState.CONFIRMED,
                true,
                RoomWorks.work(pieces),
                draft.reason(),
                null,
                clock.instant(),
                Caller.current().holder(),
                1);
    }

    private List<RoomWorks.Piece> pieces(VisitDraft draft, List<PresetLine> lines, Instant start) {
        var dues = dueLists.of(lines, clock.instant());
        var by = start.plus(Duration.ofDays(LOOK_AHEAD_DAYS));
        var chosen = Set.copyOf(draft.presetIds());
        var units = works(lines, start)
                .units(
                        dues,
                        due -> chosen.isEmpty()
                                ? RoomWorks.recalibrationDue(due, by)
                                : chosen.contains(due.line().presetId()),
                        chosen.isEmpty(),
                        "Asked for.",
                        by);
        return RoomWorks.cut(units, Integer.MAX_VALUE).taken();
    }

    private RoomWorks works(List<PresetLine> lines, Instant start) {
        var day = LocalDate.ofInstant(start, lines.get(0).zone());
        var ids = lines.stream().map(PresetLine::presetId).toList();
        return new RoomWorks(
                durations.figures(),
                matches.inForceOf(ids),
                new Axis(lines.get(0).zone(), day, day));
    }

    /** Agrees to a visit. */
    @Transactional
    Visit confirm(UUID id, long expectedVersion) {
        return change(id, expectedVersion, row -> row.with(VisitState.CONFIRMED, row.pinned(), row.reason()));
    }

    /** Lays a visit elsewhere and pins it there. */
    @Transactional
    Visit move(UUID id, VisitMove move, long expectedVersion) {
        var to = move.calibratorId();
        var calibrator = to == null ? Optional.<Calibrator>empty() : calibrators.find(to);
        reason(new Checks(), move.reason(), move.insist())
                .that(
                        to == null || calibrator.isPresent() && calibrator.get().retiredAt() == null,
                        "/calibratorId",
                        "There is no calibrator " + to + " in use.")
                .that(
                        move.startsAt().isAfter(clock.instant().minus(LATE)),
                        "/startsAt",
                        "Must not lie more than a day in the past.")
                .refuse();
        calibrator.ifPresent(other -> own(other.name()));
        return change(id, expectedVersion, row -> {
            var moved = row.at(to == null ? row.calibratorId() : to, Rows.kept(move.startsAt()))
                    .with(row.state(), true, move.reason() == null ? row.reason() : move.reason());
            mustFit(moved, move.insist());
            return moved;
        });
    }

    /** Says whether plans leave it where it is. */
    @Transactional
    Visit pin(UUID id, VisitPin pin, long expectedVersion) {
        return change(id, expectedVersion, row -> row.with(row.state(), pin.pinned(), row.reason()));
    }

    /** Says that it was made. */
    @Transactional
    Visit done(UUID id, long expectedVersion) {
        return change(id, expectedVersion, row -> {
            if (row.startsAt().isAfter(clock.instant())) {
                throw Refusal.conflict("The visit begins only at " + Say.time(row.startsAt(), row.zone())
                        + ": what has not begun is not done.");
            }
            return row.with(VisitState.DONE, row.pinned(), row.reason());
        });
    }

    /** Says that it will not be made. */
    @Transactional
    Visit drop(UUID id, VisitDrop drop, long expectedVersion) {
        new Checks().text("/reason", drop.reason(), 10_000).refuse();
        return change(id, expectedVersion, row -> row.with(VisitState.DROPPED, row.pinned(), drop.reason()));
    }

    private Visit change(UUID id, long expectedVersion, UnaryOperator<VisitRow> change) {
        book.lock();
        var row = row(id);
        own(row.calibrator());
        Etags.match(expectedVersion, row.version());
        if (!row.ahead()) {
            throw Refusal.conflict("The visit is " + row.state() + ": it stays as it is. Add another one.");
        }
        book.update(change.apply(row));
        return get(id);
    }

    /** A calibrator changes own visits only: those of the name that the token is held under. */
    private static void own(String calibrator) {
        var caller = Caller.current();
        if (caller.role() == Role.CALIBRATOR && !caller.holder().equals(calibrator)) {
            throw Refusal.of(
                    Refusal.Kind.FORBIDDEN,
                    "It is a visit of " + calibrator + ", and this token is held by " + caller.holder()
                            + ": ask an engineer.");
        }
    }

    /** Refuses what clashes with a visit that stands; of all else the person decides. Proposals give way. */
    private void mustFit(VisitRow row, boolean insist) {
        // one that is over by its runs holds its hours no longer
        book.noteDone();
        var others = book.ahead(row.warmUpFrom(), row.endsAt()).stream()
                .filter(other -> !other.id().equals(row.id()))
                .filter(other -> overlap(row, other))
                .toList();
        var now = clock.instant();
        var standing = others.stream().filter(other -> other.fixed(now)).toList();
        var against = Stream.concat(others.stream().map(Visits::named), checks.against(row).stream())
                .toList();
        if (!standing.isEmpty()) {
            throw Refusal.conflict("It clashes: " + String.join(" ", against)
                    + " Move or drop the other visit first, or choose another time.");
        }
        if (!against.isEmpty() && !insist) {
            throw Refusal.conflict(
                    "It clashes: " + String.join(" ", against) + " Choose another time, or insist and give a reason.");
        }
        others.forEach(
                other -> book.update(other.with(VisitState.DROPPED, false, "it gave way to a visit to " + row.room())));
    }

    private static boolean overlap(VisitRow row, VisitRow other) {
        var calibrator = row.calibratorId().equals(other.calibratorId())
                && new Stretch(row.startsAt(), row.endsAt()).meets(other.startsAt(), other.endsAt());
        var room = row.roomId().equals(other.roomId())
                && new Stretch(row.warmUpFrom(), row.endsAt()).meets(other.warmUpFrom(), other.endsAt());
        return calibrator || room;
    }

    private static String named(VisitRow other) {
        return "There is a " + other.state() + " visit of " + other.calibrator() + " to " + other.room() + " from "
                + Say.time(other.startsAt(), other.zone()) + " to " + Say.time(other.endsAt(), other.zone())
                + " (" + other.id() + ").";
    }

    private VisitRow row(UUID id) {
        return book.find(id).orElseThrow(() -> Refusal.notFound("visit", id));
    }

    private Visit view(VisitRow row) {
        return checks.views(List.of(row)).get(0);
    }
}
