package panelbook.wire;

import java.time.LocalDate;
import java.util.UUID;

/**
 * A certificate to add.
 *
 * @param expiresOn last day on which it holds
 */
public record CertificateDraft(UUID id, String number, LocalDate issuedOn, LocalDate expiresOn) {}
