package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * The answer to the question whether a document is genuine.
 *
 * @param explanation for people
 * @param proof what was handed out; null when unknown
 */
public record ProofCheck(
        ProofVerdict verdict, String explanation, @Nullable Proof proof) {}
