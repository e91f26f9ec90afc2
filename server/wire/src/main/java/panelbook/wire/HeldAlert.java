package panelbook.wire;

import java.util.UUID;

/**
 * An open alert that another one explains.
 *
 * @param subject path of the preset or room, or name of the instrument
 */
public record HeldAlert(UUID id, AlertCause cause, AlertState state, String subject, String headline) {}
