package panelbook.wire;

import java.time.LocalDate;

/** A certificate in a facility book. */
public record CertificateEntry(String number, LocalDate issuedOn, LocalDate expiresOn) {}
