package panelbook.cli.command;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import panelbook.wire.Alert;

/** Puts what an alert holds back right below it. */
final class HeldBack {

    private HeldBack() {}

    /** The same alerts, each followed by those that it holds back; one whose holder is not among them keeps its place. */
    static List<Alert> belowTheirHolders(List<Alert> alerts) {
        var ids = alerts.stream().map(Alert::id).collect(Collectors.toSet());
        var ordered = new LinkedHashSet<Alert>();
        alerts.stream()
                .filter(alert -> alert.heldBy() == null || !ids.contains(alert.heldBy()))
                .forEach(alert -> addWithHeld(alert, alerts, ordered));
        // pages read while alerts changed may say that each holds the other back: still none is left out
        ordered.addAll(alerts);
        return List.copyOf(ordered);
    }

    private static void addWithHeld(Alert alert, List<Alert> alerts, Set<Alert> ordered) {
        if (ordered.add(alert)) {
            heldBy(alert.id(), alerts).forEach(held -> addWithHeld(held, alerts, ordered));
        }
    }

    private static List<Alert> heldBy(UUID holder, List<Alert> alerts) {
        return alerts.stream().filter(alert -> holder.equals(alert.heldBy())).toList();
    }
}
