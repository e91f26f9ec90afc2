package panelbook.wire;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A calibration certificate of an instrument.
 *
 * @param expiresOn last day on which it holds
 */
public record Certificate(
        UUID id, UUID instrumentId, String number, LocalDate issuedOn, LocalDate expiresOn, String recordedBy) {}
