package panelbook.cli.service;

import java.time.Instant;
import panelbook.wire.RoomSheet;

/**
 * A copy of a room sheet.
 *
 * @param service address of the service it came from
 * @param savedAt by the clock of this machine
 */
public record SavedSheet(String service, Instant savedAt, RoomSheet sheet) {}
