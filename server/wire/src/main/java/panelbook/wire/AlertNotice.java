package panelbook.wire;

import java.util.UUID;

/** What an upload did to an alert. */
public record AlertNotice(UUID alertId, AlertEventKind event, AlertCause cause, String headline) {}
