package panelbook.wire;

import java.util.UUID;

/**
 * A facility to add or edit.
 *
 * @param name unique
 * @param timeZone IANA name, e.g. Europe/Lisbon
 */
public record FacilityDraft(UUID id, String name, String timeZone) {}
