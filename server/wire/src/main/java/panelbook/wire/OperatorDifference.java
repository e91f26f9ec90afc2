package panelbook.wire;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * How what two operators signed off for the same pair differs: that of {@code other} less that of {@code operator}. The
 * measured parts are null when one of the two matches is unmeasured.
 *
 * @param follower path
 * @param hero path
 * @param du of the agreed offsets of white, CIE 1976 u′
 * @param dv of the agreed offsets of white, CIE 1976 v′
 * @param duv length of that vector
 * @param luminancePercent of the agreed offsets of white, %
 * @param clicks of the controls that stand apart
 */
public record OperatorDifference(
        UUID followerPresetId,
        String follower,
        UUID heroPresetId,
        String hero,
        String operator,
        String other,
        @Nullable Double du,
        @Nullable Double dv,
        @Nullable Double duv,
        @Nullable Double luminancePercent,
        List<Trim> clicks) {}
