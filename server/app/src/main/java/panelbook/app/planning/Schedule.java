package panelbook.app.planning;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.planning.crew.Calibrators;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.wire.Calibrator;
import panelbook.wire.Visit;
import panelbook.wire.VisitMove;
import panelbook.wire.VisitState;

/** Visits, for those who show them and let people agree to them. */
@Component
public class Schedule {

    /** Nobody plans further ahead. */
    private static final Duration AHEAD = Duration.ofDays(3650);

    private final Visits visits;
    private final VisitBook book;
    private final Calibrators calibrators;
    private final Clock clock;

    Schedule(Visits visits, VisitBook book, Calibrators calibrators, Clock clock) {
        this.visits = visits;
        this.book = book;
        this.calibrators = calibrators;
        this.clock = clock;
    }

    /** When somebody comes next. */
    public record Next(UUID visitId, Instant startsAt, VisitState state, String calibrator) {}

    /** The visit under way or else the next one of each room that has one, proposed or confirmed; one statement reads all. */
    @Transactional(readOnly = true)
    public Map<UUID, Next> next() {
        var now = clock.instant();
        var next = new HashMap<UUID, Next>();
        for (var row : book.ahead(now, now.plus(AHEAD))) {
            next.putIfAbsent(row.roomId(), new Next(row.id(), row.startsAt(), row.state(), row.calibrator()));
        }
        return next;
    }

    /**
     * Visits that reach into a stretch of time, by start, dropped ones left out.
     *
     * @param roomId only there; null for everywhere
     * @param facilityId only there; null for everywhere
     */
    @Transactional(readOnly = true)
    public List<Visit> between(@Nullable UUID roomId, @Nullable UUID facilityId, Instant from, Instant until) {
        var states = new String[] {
            VisitState.PROPOSED.toString(), VisitState.CONFIRMED.toString(), VisitState.DONE.toString()
        };
        var filter = new VisitFilter(roomId, facilityId, null, from, until, states);
        var all = new ArrayList<Visit>();
        var paging = Paging.whole();
        while (paging != null) {
            var page = visits.page(filter, paging);
            all.addAll(page.items());
            paging = page.next() == null ? null : Paging.whole().then(page.next());
        }
        return all;
    }

    /**
     * A visit.
     *
     * @throws Refusal when there is none
     */
    public Visit get(UUID id) {
        return visits.get(id);
    }

    /** Those who make visits and are in use, by name. */
    public List<Calibrator> calibrators() {
        return calibrators.all().stream()
                .filter(calibrator -> calibrator.retiredAt() == null)
                .toList();
    }

    /**
     * Agrees to a visit.
     *
     * @throws Refusal when it was changed meanwhile, is over, or is somebody else's visit
     */
    public Visit confirm(UUID id, long expectedVersion) {
        return visits.confirm(id, expectedVersion);
    }

    /**
     * Lays a visit elsewhere and pins it there.
     *
     * @throws Refusal when it was changed meanwhile, is over, is somebody else's visit, or clashes and nobody insists
     */
    public Visit move(UUID id, VisitMove move, long expectedVersion) {
        return visits.move(id, move, expectedVersion);
    }
}
