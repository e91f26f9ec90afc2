package panelbook.wire;

/** CIE 1931 chromaticities of primaries and white. */
public record Primaries(
        double redX,
        double redY,
        double greenX,
        double greenY,
        double blueX,
        double blueY,
        double whiteX,
        double whiteY) {}
