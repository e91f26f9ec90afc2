package panelbook.colorimetry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class ConversionsTest {
    static LongStream seeds() {
        return LongStream.rangeClosed(1, 200);
    }

    static XYZ anyLight(Random random) {
        double[] rgb = {random.nextDouble(), random.nextDouble(), random.nextDouble()};
        double luminance = Math.pow(10, -3 + 7 * random.nextDouble());
        XYZ light = RgbSpace.BT_2020.toXyz().times(rgb[0] + 1e-3, rgb[1] + 1e-3, rgb[2] + 1e-3);
        return light.times(luminance / light.y());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void anyLightSurvivesEveryRoundTrip(long seed) {
        Random random = new Random(seed);
        XYZ light = anyLight(random);
        XYZ white = XYZ.of(Chromaticity.D65, 100 + 900 * random.nextDouble());
        close(XYZ.of(light.chromaticity().orElseThrow(), light.y()), light);
        close(XYZ.of(light.uv1976().orElseThrow(), light.y()), light);
        UV1976 uv = light.uv1976().orElseThrow();
        close(XYZ.of(uv.toUV1960().toUV1976().toChromaticity(), light.y()), light);
        close(XYZ.of(light.chromaticity().orElseThrow().toUV1960().toUV1976(), light.y()), light);
        close(Lab.of(light, white).toXYZ(white), light);
        close(ICtCp.of(light).toXYZ(), light);
    }

    private static void close(XYZ actual, XYZ expected) {
        double tolerance = 1e-8 * (expected.x() + expected.y() + expected.z());
        assertThat(actual.x()).isCloseTo(expected.x(), within(tolerance));
        assertThat(actual.y()).isCloseTo(expected.y(), within(tolerance));
        assertThat(actual.z()).isCloseTo(expected.z(), within(tolerance));
    }

    /** CIE 015:2018: D65 has u' 0.1978, v' 0.4683; equal energy has u' 4/19, v' 9/19 by definition. */
    @ParameterizedTest
    @CsvSource({"0.31272, 0.32903, 0.1978, 0.4683", "0.3333333333333333, 0.3333333333333333, 0.2105263, 0.4736842"})
    void whitesHaveThePublishedChromaticity(double x, double y, double u, double v) {
        UV1976 uv = new Chromaticity(x, y).toUV1976();
        assertThat(uv.u()).isCloseTo(u, within(5e-5));
        assertThat(uv.v()).isCloseTo(v, within(5e-5));
    }

    @Test
    void uvOfTheCctTableAreThoseOfItsChromaticities() {
        for (NamedCsvRecord row : PublishedTable.rows("cct_duv.csv")) {
            UV1960 uv = new Chromaticity(PublishedTable.number(row, "x"), PublishedTable.number(row, "y")).toUV1960();
            assertThat(uv.u()).as(row.getField("stimulus")).isCloseTo(PublishedTable.number(row, "u"), within(1e-9));
            assertThat(uv.v()).as(row.getField("stimulus")).isCloseTo(PublishedTable.number(row, "v"), within(1e-9));
        }
    }

    @Test
    void blackHasNoChromaticity() {
        assertThat(XYZ.BLACK.chromaticity()).isEmpty();
        assertThat(XYZ.BLACK.uv1976()).isEmpty();
    }

    /** ISO/CIE 11664-4: white is L* 100, 18.42 % is about L* 50, and below 0.8856 % L* is 903.3 Y/Yn. */
    @Test
    void lightnessFollowsTheStandard() {
        XYZ white = XYZ.of(Chromaticity.D65, 100);
        Lab ofWhite = Lab.of(white, white);
        assertThat(ofWhite.lightness()).isCloseTo(100, within(1e-12));
        assertThat(Math.hypot(ofWhite.a(), ofWhite.b())).isCloseTo(0, within(1e-12));
        assertThat(Lab.of(white.times(0.1842), white).lightness()).isCloseTo(50, within(0.005));
        assertThat(Lab.of(white.times(0.005), white).lightness()).isCloseTo(903.3 * 0.005, within(1e-4));
    }

    @Test
    void aValueThatIsNoNumberIsRefusedByName() {
        assertThatThrownBy(() -> new XYZ(1, Double.NaN, 1))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("Y in cd/m2 must be a finite number, but is NaN");
    }
}
