package panelbook.wire;

import org.jspecify.annotations.Nullable;

/**
 * How far patches lie apart in two readings of them.
 *
 * @param patches how many
 * @param meanDeltaEItp ΔE ITP, mean
 * @param largestDeltaEItp ΔE ITP
 * @param at the patch of the largest, as code values
 * @param largestDuv the largest Δu′v′; null when no patch has a chromaticity in both
 */
public record PatchMoves(
        int patches,
        @Nullable Double meanDeltaEItp,
        @Nullable Double largestDeltaEItp,
        @Nullable String at,
        @Nullable Double largestDuv) {}
