package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * A document that somebody holds, to be checked against the record.
 *
 * @param fileDigest SHA-256 of the file, 64 hexadecimal digits
 * @param contentDigest the digest that the document carries, if it can be read from it
 */
public record ProofCheckDraft(String fileDigest, @Nullable String contentDigest) {}
