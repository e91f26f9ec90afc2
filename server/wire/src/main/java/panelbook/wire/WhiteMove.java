package panelbook.wire;

/**
 * White read in two ways.
 *
 * @param luminanceBefore cd/m²
 * @param uBefore CIE 1976 u′
 * @param vBefore CIE 1976 v′
 * @param luminanceAfter cd/m²
 * @param uAfter CIE 1976 u′
 * @param vAfter CIE 1976 v′
 * @param luminancePercent how far the luminance moves
 * @param duv how far the chromaticity moves, Δu′v′
 */
public record WhiteMove(
        double luminanceBefore,
        double uBefore,
        double vBefore,
        double luminanceAfter,
        double uAfter,
        double vAfter,
        double luminancePercent,
        double duv) {}
