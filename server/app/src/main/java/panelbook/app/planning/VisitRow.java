package panelbook.app.planning;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Visit;
import panelbook.wire.VisitState;
import panelbook.wire.VisitWork;

/** A visit as it stands in the book. */
record VisitRow(
        UUID id,
        UUID roomId,
        UUID facilityId,
        String room,
        ZoneId zone,
        UUID calibratorId,
        String calibrator,
        Instant warmUpFrom,
        Instant startsAt,
        Instant endsAt,
        VisitState state,
        boolean pinned,
        List<VisitWork> work,
        @Nullable String reason,
        @Nullable UUID planId,
        Instant changedAt,
        String changedBy,
        long version) {

    /** Whether no plan moves it. */
    boolean fixed(Instant now) {
        return state == VisitState.CONFIRMED || pinned || !startsAt.isAfter(now);
    }

    boolean ahead() {
        return state == VisitState.PROPOSED || state == VisitState.CONFIRMED;
    }

    Duration warmUp() {
        return Duration.between(warmUpFrom, startsAt);
    }

    VisitRow at(UUID otherCalibratorId, Instant start) {
        return new VisitRow(
                id,
                roomId,
                facilityId,
                room,
                zone,
                otherCalibratorId,
                calibrator,
                start.minus(warmUp()),
                start,
                start.plus(Duration.between(startsAt, endsAt)),
                state,
                pinned,
                work,
                reason,
                planId,
                changedAt,
                changedBy,
                version);
    }

    VisitRow with(VisitState otherState, boolean isPinned, @Nullable String otherReason) {
        return new VisitRow(
                id,
                roomId,
                facilityId,
                room,
                zone,
                calibratorId,
                calibrator,
                warmUpFrom,
                startsAt,
                endsAt,
                otherState,
                isPinned,
                work,
                otherReason,
                planId,
                changedAt,
                changedBy,
                version);
    }

    Visit view(List<String> remarks) {
        return new Visit(
                id,
                roomId,
                room,
                zone.getId(),
                calibratorId,
                calibrator,
                warmUpFrom,
                startsAt,
                endsAt,
                state,
                pinned,
                work,
                reason,
                remarks,
                planId,
                changedAt,
                changedBy,
                version);
    }
}
