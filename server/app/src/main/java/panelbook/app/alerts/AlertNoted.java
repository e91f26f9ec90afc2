package panelbook.app.alerts;

import java.time.Instant;
import java.util.UUID;
import panelbook.wire.AlertEventKind;

/**
 * The history of an alert went on; published in the transaction that writes it.
 *
 * @param heldBack whether another alert holds it back
 * @param detail what the alert holds then, as JSON, its {@code findings} among others
 */
public record AlertNoted(
        long sequence, UUID alertId, AlertEventKind kind, Instant at, boolean heldBack, String detail) {}
