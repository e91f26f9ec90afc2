package panelbook.colorimetry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

class RgbSpaceTest {
    static final double[] BT_709 = {0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505};
    static final double[] BT_2020 = {0.636958, 0.144617, 0.168881, 0.2627, 0.677998, 0.059302, 0, 0.028073, 1.060985};
    static final double[] P3_DCI = {0.4452, 0.2771, 0.1723, 0.2095, 0.7216, 0.0689, 0, 0.0471, 0.9074};
    static final double[] P3_D65 = {0.4866, 0.2657, 0.1982, 0.2290, 0.6917, 0.0793, 0, 0.0451, 1.0439};

    static Stream<Arguments> published() {
        return Stream.of(
                Arguments.of("IEC 61966-2-1:1999, matrix of the BT.709 primaries", RgbSpace.BT_709, BT_709, 5e-5),
                Arguments.of(
                        "six decimals by RP 177; luminance row BT.2020-2 Table 4", RgbSpace.BT_2020, BT_2020, 5e-7),
                Arguments.of("four decimals of RP 431-2 Annex, from memory", RgbSpace.P3_DCI, P3_DCI, 5e-5),
                Arguments.of("four decimals after EG 432-1, from memory", RgbSpace.P3_D65, P3_D65, 5e-5));
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("published")
    void matrixIsThePublishedOne(String source, RgbSpace space, double[] rows, double rounding) {
        double[] actual = rows(space.toXyz());
        for (int i = 0; i < 9; i++) {
            assertThat(actual[i]).as("element %d, %s", i, source).isCloseTo(rows[i], within(rounding));
        }
    }

    /** Luma coefficients as the Recommendations print them: BT.709-6 item 3.2, BT.2020-2 Table 4, BT.2100-2 Table 6. */
    @Test
    void luminanceRowGivesTheLumaCoefficientsOfTheRecommendations() {
        assertThat(round4(RgbSpace.BT_709.toXyz())).containsExactly(0.2126, 0.7152, 0.0722);
        assertThat(round4(RgbSpace.BT_2020.toXyz())).containsExactly(0.2627, 0.6780, 0.0593);
    }

    /**
     * SMPTE RP 177:1993, step by step for P3: C = P^-1 W, then P diag(C), here by Cramer's rule in place of
     * the inverse that the code uses.
     */
    @Test
    void p3MatrixIsTheDerivationOfRp177() {
        double[][] p = {{0.680, 0.265, 0.150}, {0.320, 0.690, 0.060}, {0.0, 0.045, 0.790}};
        double[] w = {0.3127 / 0.3290, 1, (1 - 0.3127 - 0.3290) / 0.3290};
        double[] actual = rows(RgbSpace.P3_D65.toXyz());
        for (int column = 0; column < 3; column++) {
            double gain = determinant(withColumn(p, column, w)) / determinant(p);
            for (int row = 0; row < 3; row++) {
                assertThat(actual[3 * row + column]).isCloseTo(p[row][column] * gain, within(1e-12));
            }
        }
    }

    @Test
    void theInverseUndoesTheMatrix() {
        Matrix3 m = RgbSpace.P3_DCI.toXyz();
        double[] product = rows(m.times(m.inverse()));
        for (int i = 0; i < 9; i++) {
            assertThat(product[i]).isCloseTo(i % 4 == 0 ? 1 : 0, within(1e-14));
        }
    }

    @Test
    void primariesOnALineAreRefused() {
        Chromaticity red = RgbSpace.BT_709.red();
        assertThatThrownBy(() -> new RgbSpace(red, RgbSpace.BT_709.green(), red, Chromaticity.D65))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("the primaries lie on a line");
    }

    @Test
    void aWhiteOutsideTheTriangleIsRefused() {
        RgbSpace s = RgbSpace.BT_709;
        assertThatThrownBy(() -> new RgbSpace(s.red(), s.green(), s.blue(), new Chromaticity(0.1, 0.7)))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessageContaining("outside the triangle");
    }

    private static double[] round4(Matrix3 m) {
        double[] row = {m.m10(), m.m11(), m.m12()};
        for (int i = 0; i < 3; i++) {
            row[i] = Math.round(row[i] * 1e4) / 1e4;
        }
        return row;
    }

    private static double[] rows(Matrix3 m) {
        return new double[] {m.m00(), m.m01(), m.m02(), m.m10(), m.m11(), m.m12(), m.m20(), m.m21(), m.m22()};
    }

    private static double[][] withColumn(double[][] p, int column, double[] w) {
        double[][] copy = {p[0].clone(), p[1].clone(), p[2].clone()};
        for (int row = 0; row < 3; row++) {
            copy[row][column] = w[row];
        }
        return copy;
    }

    private static double determinant(double[][] m) {
        return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
                - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
                + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
    }
}
