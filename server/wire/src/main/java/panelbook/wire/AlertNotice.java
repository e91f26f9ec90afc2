package panelbook.wire;

import java.util.UUID;

/**
 * What an upload did to an alert.
 *
 * @param subject path of the preset or name of the instrument
 */
public record AlertNotice(UUID alertId, AlertEventKind event, AlertCause cause, String subject, String headline) {}
