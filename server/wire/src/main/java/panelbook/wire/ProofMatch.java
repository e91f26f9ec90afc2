package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A match in force on a proof. Uncertainties are expanded, k = 2.
 *
 * @param follower display and preset
 * @param hero display and preset
 * @param du agreed offset, follower − hero, u′ of white; null with the next five when it was signed without closing runs
 * @param dv agreed offset, v′ of white
 * @param chromaticityUncertainty of du and of dv
 * @param luminancePercent agreed offset, follower over hero − 1, white
 * @param luminanceUncertaintyPercent of luminancePercent
 * @param corrections of the meters that the closing runs are read with; null when there are no closing runs
 * @param residual figures that stood: what was left of the difference once the agreed offset was taken off
 * @param setAside as residual, but set aside: the match was in question, or the follower stood in another operator's trims
 * @param inQuestion why the match was in question; null when it was not
 */
public record ProofMatch(
        UUID id,
        String follower,
        String hero,
        String operator,
        Instant signedAt,
        String recordedBy,
        @Nullable Double du,
        @Nullable Double dv,
        @Nullable Double chromaticityUncertainty,
        @Nullable Double luminancePercent,
        @Nullable Double luminanceUncertaintyPercent,
        @Nullable List<String> corrections,
        List<Trim> trims,
        @Nullable String material,
        List<ProofFigure> residual,
        List<ProofFigure> setAside,
        @Nullable String inQuestion) {}
