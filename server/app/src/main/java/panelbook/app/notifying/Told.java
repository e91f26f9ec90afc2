package panelbook.app.notifying;

import java.util.UUID;
import panelbook.wire.AlertEvent;

/**
 * One event as a message tells it.
 *
 * @param id of the notification: once per channel and event, in whatever message it comes
 * @param why it is told
 */
record Told(UUID id, AlertEvent event, String why) {}
