package panelbook.app.alerts;

import java.time.Clock;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionSynchronization;
import org.springframework.transaction.support.TransactionSynchronizationManager;
import panelbook.app.alerts.Alerts.OpenAlert;
import panelbook.wire.AlertEventKind;

/**
 * What happens to alerts in a transaction, written to their history just before it commits. Only then is it known which
 * alert holds back which: a run can open the consequence before its cause, and close the cause before what it explained.
 */
@Component
class AlertChanges {

    private static final Set<AlertEventKind> BEGINNINGS = Set.of(AlertEventKind.OPENED, AlertEventKind.REOPENED);

    private final AlertLog log;
    private final AlertTree tree;
    private final Clock clock;

    AlertChanges(AlertLog log, AlertTree tree, Clock clock) {
        this.log = log;
        this.tree = tree;
        this.clock = clock;
    }

    private record Happened(
            OpenAlert alert,
            AlertEventKind kind,
            Instant at,
            String by,
            @Nullable String note) {}

    /** Something happened to an alert, which says this now, in the transaction under way. The log must be locked. */
    void happened(OpenAlert alert, AlertEventKind kind, Instant at, String by, @Nullable String note) {
        pending().add(new Happened(alert, kind, at, by, note));
    }

    /** Alerts stand in another room now. */
    void moved(List<UUID> alertIds) {
        if (!alertIds.isEmpty()) {
            pending().changed.addAll(alertIds);
        }
    }

    private Pending pending() {
        return TransactionSynchronizationManager.getSynchronizations().stream()
                .filter(Pending.class::isInstance)
                .map(Pending.class::cast)
                .findFirst()
                .orElseGet(this::begin)
                .notYetWritten();
    }

    private Pending begin() {
        var pending = new Pending();
        TransactionSynchronizationManager.registerSynchronization(pending);
        return pending;
    }

    /** The changes of one transaction. */
    private final class Pending implements TransactionSynchronization {

        private final List<Happened> happened = new ArrayList<>();
        private final Set<UUID> changed = new LinkedHashSet<>();
        private boolean written;

        void add(Happened one) {
            happened.add(one);
            changed.add(one.alert().id());
        }

        Pending notYetWritten() {
            if (written) {
                throw new IllegalStateException(
                        "An alert was changed after the history of its transaction was written");
            }
            return this;
        }

        @Override
        public void beforeCommit(boolean readOnly) {
            written = true;
            var shifts = tree.settle(changed);
            var told = tree.tell(shifts.stream()
                    .flatMap(shift -> Stream.of(shift.before(), shift.now()))
                    .filter(Objects::nonNull)
                    .collect(Collectors.toSet()));
            var begun = write(shifts, told);
            var by = happened.isEmpty()
                    ? "service"
                    : happened.get(happened.size() - 1).by();
            shifts.stream()
                    .filter(shift ->
                            shift.now() == null || !begun.contains(shift.alert().id()))
                    .forEach(shift -> writeShift(shift, told, by));
        }

        /** The alerts that were opened or opened again, and whose event says already what holds them back. */
        private Set<UUID> write(List<AlertTree.Shift> shifts, Map<UUID, String> told) {
            var held = shifts.stream()
                    .filter(shift -> shift.now() != null)
                    .collect(Collectors.toMap(shift -> shift.alert().id(), shift -> told.get(shift.now())));
            var begun = new HashSet<UUID>();
            for (var one : happened) {
                var holder =
                        BEGINNINGS.contains(one.kind()) ? held.get(one.alert().id()) : null;
                if (holder != null) {
                    begun.add(one.alert().id());
                }
                append(
                        one.alert(),
                        one.kind(),
                        one.at(),
                        one.by(),
                        holder == null ? one.note() : sentences(one.note(), explainedBy(holder)));
            }
            return begun;
        }

        private void writeShift(AlertTree.Shift shift, Map<UUID, String> told, String by) {
            var held = shift.now() != null;
            append(
                    shift.alert(),
                    held ? AlertEventKind.HELD_BACK : AlertEventKind.RELEASED,
                    clock.instant(),
                    by,
                    held ? explainedBy(told.get(shift.now())) : "Explained no longer by " + told.get(shift.before()));
        }

        private void append(OpenAlert alert, AlertEventKind kind, Instant at, String by, @Nullable String note) {
            log.append(alert.id(), kind, at, by, note, alert.headline(), alert.detail());
        }
    }

    private static String explainedBy(@Nullable String holder) {
        return "Explained by " + holder;
    }

    private static String sentences(@Nullable String first, String second) {
        return first == null ? second : first + " " + second;
    }
}
