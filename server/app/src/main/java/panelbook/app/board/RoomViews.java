package panelbook.app.board;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.calendars.Bookings;
import panelbook.app.calendars.BusyTime;
import panelbook.app.planning.Schedule;
import panelbook.app.rest.Refusal;
import panelbook.app.sheet.RoomSheets;
import panelbook.wire.Alert;
import panelbook.wire.AsLeft;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.Reason;
import panelbook.wire.RoomSheet;
import panelbook.wire.Run;
import panelbook.wire.SheetPreset;
import panelbook.wire.Visit;
import panelbook.wire.VisitState;

/** Gathers all that the page of a room and its sheet show. */
@Component
class RoomViews {

    private static final Duration LOOK_BACK = Duration.ofDays(365);

    private final RoomSheets sheets;
    private final Bookings bookings;
    private final Schedule schedule;
    private final Clock clock;

    RoomViews(RoomSheets sheets, Bookings bookings, Schedule schedule, Clock clock) {
        this.sheets = sheets;
        this.bookings = bookings;
        this.schedule = schedule;
        this.clock = clock;
    }

    /**
     * A reason and what it rests on.
     *
     * @param displayId the display that it is about; null when it is about the room
     * @param runId the run that shows it; null when none does
     */
    record Grounds(
            Reason reason,
            @Nullable UUID displayId,
            @Nullable UUID runId) {}

    /**
     * Who comes and who came; of the past the book does not keep what was planned then.
     *
     * @param booking under way or next
     * @param visit under way or next
     * @param last the visit that was made last
     */
    record Comings(
            @Nullable BusyTime booking,
            Schedule.@Nullable Next visit,
            @Nullable Visit last) {}

    /** What the page shows. */
    record RoomView(
            RoomSheet sheet,
            List<Grounds> grounds,
            @Nullable Comings comings) {

        public ZoneId zone() {
            return ZoneId.of(sheet.room().timeZone());
        }

        public @Nullable Instant since() {
            return RoomLists.since(sheet.readiness());
        }

        /** A path without the facility and the room when they are those of the page. */
        public String here(String path) {
            var start = sheet.room().facility() + "/" + sheet.room().name() + "/";
            return path.startsWith(start) ? path.substring(start.length()) : path;
        }

        /** What moved since, of all presets, the gravest first. */
        public List<Finding> moved() {
            return new MeasuredWords()
                    .gravestFirst(presets().flatMap(one -> one.drift().stream()).toList());
        }

        /** What moved of agreements that are in question, or of operators whose trims a follower does not stand in. */
        public List<Finding> setAside() {
            return new MeasuredWords()
                    .gravestFirst(
                            presets().flatMap(one -> one.setAside().stream()).toList());
        }

        /** Those that are within their limits. */
        public List<Finding> within(List<Finding> findings) {
            return findings.stream()
                    .filter(finding -> finding.decision() == Decision.WITHIN)
                    .toList();
        }

        /** Those that are not. */
        public List<Finding> notWithin(List<Finding> findings) {
            return findings.stream()
                    .filter(finding -> finding.decision() != Decision.WITHIN)
                    .toList();
        }

        /** Alerts, each before those that it explains. */
        public List<Alert> alerts() {
            return AlertLists.belowTheirHolders(sheet.alerts());
        }

        /** Whose match a finding is judged against; empty when it is against none. */
        public String operator(@Nullable UUID matchId) {
            return sheet.trims().stream()
                    .filter(match -> match.id().equals(matchId))
                    .map(match -> match.operator())
                    .findFirst()
                    .orElse("");
        }

        /** When one of the presets was left as it is by a calibration last; null when none ever was. */
        public @Nullable Instant lastLeft() {
            return presets()
                    .map(SheetPreset::asLeft)
                    .filter(Objects::nonNull)
                    .map(AsLeft::run)
                    .map(Run::takenAt)
                    .max(Comparator.naturalOrder())
                    .orElse(null);
        }

        private Stream<SheetPreset> presets() {
            return sheet.targets().stream().flatMap(target -> target.presets().stream());
        }
    }

    /**
     * A room as it stands, or as it stood where the book is asked as of a moment.
     *
     * @param past whether it is asked as of a moment
     * @throws Refusal when there is no such room or meter, or the room is retired
     */
    RoomView of(UUID roomId, Set<UUID> inHand, boolean past) {
        var sheet = sheets.of(roomId, inHand);
        var grounds = sheet.readiness().reasons().stream()
                .map(reason -> grounds(reason, sheet))
                .toList();
        return new RoomView(sheet, grounds, past ? null : comings(roomId));
    }

    private Comings comings(UUID roomId) {
        var now = clock.instant();
        var last = schedule.between(roomId, null, now.minus(LOOK_BACK), now).stream()
                .filter(visit -> visit.state() == VisitState.DONE
                        || visit.state() == VisitState.CONFIRMED
                                && visit.endsAt().isBefore(now))
                .max(Comparator.comparing(Visit::startsAt))
                .orElse(null);
        return new Comings(
                bookings.next(List.of(roomId), now).get(roomId), schedule.next().get(roomId), last);
    }

    private static Grounds grounds(Reason reason, RoomSheet sheet) {
        var preset = sheet.targets().stream()
                .flatMap(target -> target.presets().stream())
                .filter(one -> one.preset().display().equals(reason.display())
                        && one.preset().name().equals(reason.preset()))
                .findFirst();
        var display = sheet.displays().stream()
                .filter(one -> one.display().name().equals(reason.display()))
                .map(one -> one.display().id())
                .findFirst()
                .orElse(null);
        return new Grounds(reason, display, preset.map(one -> run(reason, one)).orElse(null));
    }

    /** The run of the finding that the reason repeats; else the one that shows how the preset stands. */
    private static @Nullable UUID run(Reason reason, SheetPreset preset) {
        var findings = Stream.concat(
                preset.drift().stream(),
                preset.asLeft() == null ? Stream.<Finding>empty() : preset.asLeft().findings().stream());
        return findings.filter(finding -> finding.metric().toString().equals(reason.code()))
                .map(Finding::runId)
                .filter(Objects::nonNull)
                .findFirst()
                .orElseGet(
                        () -> preset.latest() == null ? null : preset.latest().id());
    }
}
