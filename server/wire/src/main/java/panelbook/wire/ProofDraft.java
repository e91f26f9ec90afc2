package panelbook.wire;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A proof to be made of a room.
 *
 * @param day in the room's time zone; today at the latest
 */
public record ProofDraft(UUID id, LocalDate day) {}
