package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * How the last calibration left a preset: what the run of its baseline measured. A figure that the run's patches cannot give
 * is null.
 *
 * @param days since the run was taken
 * @param panelHours that the display has run since; null when a counter is unknown or went back
 * @param whiteLuminance cd/m²
 * @param whiteU CIE 1976 u′ of white
 * @param whiteV CIE 1976 v′ of white
 * @param whiteCct correlated colour temperature of white, K
 * @param whiteDuv distance of white from the Planckian locus, CIE 1960 u, v; positive above it
 * @param blackLuminance cd/m²
 * @param contrast white over black; also null when black lies at the meter's floor, so that it is not measurable
 * @param deltaEItp against the target as it is now
 * @param deltaE2000 against the target as it is now
 * @param correction that its readings were corrected with, by name; null when they are as they were taken
 * @param findings of the run against the target, as judged last
 */
public record AsLeft(
        Run run,
        long days,
        @Nullable Double panelHours,
        @Nullable Double whiteLuminance,
        @Nullable Double whiteU,
        @Nullable Double whiteV,
        @Nullable Double whiteCct,
        @Nullable Double whiteDuv,
        @Nullable Double blackLuminance,
        @Nullable Double contrast,
        @Nullable Deviation deltaEItp,
        @Nullable Deviation deltaE2000,
        @Nullable String correction,
        List<Finding> findings) {}
