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

    /** What happened to an alert, and its headline and detail then. */
    record Happened(
            UUID alertId,
            AlertEventKind kind,
            Instant at,
            String by,
            @Nullable String note,
            String headline,
            String detail) {}

    /** Something happened in the transaction under way. The log must be locked. */
    void happened(Happened happened) {
        pending().add(happened);
    }

    /** Alerts stand in another room now. */
    void moved(List<UUID> alertIds) {
        if (!alertIds.isEmpty()) {
            pending().touched(alertIds);
        }
    }

    private Pending pending() {
        return TransactionSynchronizationManager.getSynchronizations().stream()
                .filter(Pending.class::isInstance)
                .map(Pending.class::cast)
                .filter(pending -> !pending.written)
                .findFirst()
                .orElseGet(this::begin);
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
            changed.add(one.alertId());
        }

        void touched(List<UUID> alertIds) {
            changed.addAll(alertIds);
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
                    .filter(shift -> shift.now() == null || !begun.contains(shift.alertId()))
                    .forEach(shift -> writeShift(shift, told, by));
        }

        /** The alerts that were opened or opened again, and whose event says already what holds them back. */
        private Set<UUID> write(List<AlertTree.Shift> shifts, Map<UUID, String> told) {
            var held = shifts.stream()
                    .filter(shift -> shift.now() != null)
                    .collect(Collectors.toMap(AlertTree.Shift::alertId, shift -> told.get(shift.now())));
            var begun = new HashSet<UUID>();
            for (var one : happened) {
                var holder = BEGINNINGS.contains(one.kind()) ? held.get(one.alertId()) : null;
                if (holder != null) {
                    begun.add(one.alertId());
                }
                var note = holder == null ? one.note() : sentences(one.note(), explainedBy(holder));
                log.append(one.alertId(), one.kind(), one.at(), one.by(), note, one.headline(), one.detail());
            }
            return begun;
        }

        private void writeShift(AlertTree.Shift shift, Map<UUID, String> told, String by) {
            var held = shift.now() != null;
            log.append(
                    shift.alertId(),
                    held ? AlertEventKind.HELD_BACK : AlertEventKind.RELEASED,
                    clock.instant(),
                    by,
                    held ? explainedBy(told.get(shift.now())) : "Explained no longer by " + told.get(shift.before()),
                    shift.headline(),
                    shift.detail());
        }
    }

    private static String explainedBy(@Nullable String holder) {
        return "Explained by " + holder;
    }

    private static String sentences(@Nullable String first, String second) {
        return first == null ? second : first + " " + second;
    }
}
