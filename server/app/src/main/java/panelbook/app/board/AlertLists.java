package panelbook.app.board;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.alerts.AlertBook;
import panelbook.app.alerts.AlertFilter;
import panelbook.app.rest.Paging;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertState;

/** Alerts in the order in which people should look at them. */
@Component
class AlertLists {

    private final AlertBook book;

    AlertLists(AlertBook book) {
        this.book = book;
    }

    /**
     * Alerts not closed, or closed ones, those that nobody has in hand first, what closes a room before all else, the oldest
     * before the newer; each with those that it explains below it.
     *
     * @param state only those; null for all that are not closed
     */
    List<Alert> of(
            @Nullable UUID facility, @Nullable UUID room, @Nullable AlertCause cause, @Nullable AlertState state) {
        var filter = new AlertFilter(state == null ? Set.of() : Set.of(state), cause, room, facility, null);
        var all = new ArrayList<Alert>();
        var paging = Paging.whole();
        while (paging != null) {
            var page = book.page(filter, paging);
            all.addAll(page.items());
            // closed ones are without end: the newest will do
            paging = page.next() == null || state == AlertState.CLOSED
                    ? null
                    : Paging.whole().then(page.next());
        }
        if (state == AlertState.CLOSED) {
            return all;
        }
        all.sort(Comparator.comparing(Alert::state)
                .thenComparing(alert -> !closesARoom(alert))
                .thenComparing(Alert::openedAt)
                .thenComparing(Alert::id));
        return belowTheirHolders(all);
    }

    // readiness.ReasonRules is the rule; here it only puts the lines in order
    private static boolean closesARoom(Alert alert) {
        return alert.cause() == AlertCause.MOVED || alert.cause() == AlertCause.OFF_TARGET;
    }

    /** The same alerts, each followed by those that it holds back; one whose holder is not among them keeps its place. */
    static List<Alert> belowTheirHolders(List<Alert> alerts) {
        var ids = alerts.stream().map(Alert::id).collect(Collectors.toSet());
        var ordered = new LinkedHashSet<Alert>();
        for (var alert : alerts) {
            if (alert.heldBy() == null || !ids.contains(alert.heldBy())) {
                ordered.add(alert);
                // an alert is held by the topmost one that explains it, never by one that is held itself
                alerts.stream().filter(held -> alert.id().equals(held.heldBy())).forEach(ordered::add);
            }
        }
        ordered.addAll(alerts);
        return List.copyOf(ordered);
    }
}
