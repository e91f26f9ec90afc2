package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * How a preset was left: the run of the baseline in force. A figure that the run's patches cannot give is null. Uncertainties are
 * expanded, k = 2.
 *
 * @param days from that run to the moment of the proof
 * @param panelHours counter at the run, h
 * @param correction that its readings were corrected with, by name, place and version; null when they are as they were taken
 * @param whiteLuminance cd/m²
 * @param whiteLuminanceUncertainty cd/m²
 * @param whiteU CIE 1976 u′
 * @param whiteV CIE 1976 v′
 * @param whiteUncertainty in each of u′ and v′
 * @param whiteCct correlated colour temperature, K
 * @param whiteDuv distance from the Planckian locus, CIE 1960 u, v
 * @param blackLuminance cd/m²
 * @param blackLuminanceUncertainty cd/m²
 * @param contrast white over black; null also when black lay at the meter's floor
 * @param figures against the target, as judged last
 */
public record ProofAsLeft(
        UUID runId,
        Instant takenAt,
        long days,
        String operator,
        String instrument,
        @Nullable Double panelHours,
        @Nullable Boolean warmedUp,
        @Nullable String correction,
        @Nullable Double whiteLuminance,
        @Nullable Double whiteLuminanceUncertainty,
        @Nullable Double whiteU,
        @Nullable Double whiteV,
        @Nullable Double whiteUncertainty,
        @Nullable Double whiteCct,
        @Nullable Double whiteDuv,
        @Nullable Double blackLuminance,
        @Nullable Double blackLuminanceUncertainty,
        @Nullable Double contrast,
        List<ProofFigure> figures) {}
