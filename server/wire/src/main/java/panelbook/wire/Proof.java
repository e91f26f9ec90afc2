package panelbook.wire;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;

/**
 * A document that proves the state of a room on a day, as it was handed out.
 *
 * @param day in the room's time zone
 * @param asOf the moment that its figures are of: the end of the day, or when it was asked for on the day itself
 * @param state of the room at that moment
 * @param askedAt when it was asked for
 * @param askedBy who asked
 * @param contentDigest SHA-256 of what the document says, 64 hexadecimal digits; printed on it
 * @param fileDigest SHA-256 of the file handed out, 64 hexadecimal digits
 */
public record Proof(
        UUID id,
        UUID roomId,
        String facility,
        String room,
        LocalDate day,
        Instant asOf,
        ReadinessState state,
        Instant askedAt,
        String askedBy,
        String contentDigest,
        String fileDigest) {}
