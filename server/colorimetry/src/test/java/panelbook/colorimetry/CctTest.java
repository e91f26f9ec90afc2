package panelbook.colorimetry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static panelbook.colorimetry.PublishedTable.number;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

class CctTest {
    /** Search for the nearest point on the exact locus (T_exact) and a library's Ohno 2014 (T_ohno): see the file. */
    @Test
    void theTableOfStimuliIsMet() {
        for (NamedCsvRecord row : PublishedTable.rows("cct_duv.csv")) {
            Cct cct = Cct.of(new UV1960(number(row, "u"), number(row, "v")));
            double exact = number(row, "T_exact");
            double kelvin = cct.kelvin().orElseThrow();
            double duv = cct.duv().orElseThrow();
            String stimulus = row.getField("stimulus");
            assertThat(kelvin).as(stimulus).isCloseTo(exact, within(exact < 10000 ? 0.1 : 1.0));
            assertThat(duv).as(stimulus).isCloseTo(number(row, "Duv_exact"), within(1e-6));
            assertThat(kelvin).as(stimulus).isCloseTo(number(row, "T_ohno"), within(exact < 10000 ? 0.1 : 1.0));
            assertThat(duv).as(stimulus).isCloseTo(number(row, "Duv_ohno"), within(1e-6));
        }
    }

    @Test
    void everyPointOfThePublishedLocusHasItsOwnTemperature() {
        for (NamedCsvRecord row : PublishedTable.rows("planckian_uv.csv")) {
            double kelvin = number(row, "T_K");
            UV1960 uv = PlanckianLocus.at(kelvin);
            assertThat(uv.u()).as("u at %s K", kelvin).isCloseTo(number(row, "u"), within(1e-9));
            assertThat(uv.v()).as("v at %s K", kelvin).isCloseTo(number(row, "v"), within(1e-9));
            // 1000 K is the end of the range: there, rounding decides which side it falls on
            Cct cct = Cct.of(PlanckianLocus.at(Math.max(kelvin, 1000.1)));
            assertThat(cct.kelvin().orElseThrow()).isCloseTo(Math.max(kelvin, 1000.1), within(kelvin * 1e-5));
            assertThat(cct.duv().orElseThrow()).isCloseTo(0, within(1e-6));
        }
    }

    /** CIE 015:2018: nominal temperatures of the illuminants, in K, after c2 = 1.4388e-2; their spectra at 5 nm. */
    @ParameterizedTest
    @CsvSource({"A, 2856, 0.0000", "D50, 5003, 0.0032", "D55, 5503, 0.0033", "D65, 6504, 0.0032", "D75, 7504, 0.0031"})
    void spectraOfTheStandardIlluminantsGiveTheirNominalTemperature(String illuminant, double kelvin, double duv) {
        double[] spectrum = PublishedTable.column("illuminants_5nm.csv", illuminant);
        XYZ xyz = Cie1931Observer.tristimulus(300, 5, spectrum);
        Cct cct = Cct.of(xyz.chromaticity().orElseThrow().toUV1960());
        assertThat(cct.kelvin().orElseThrow()).isCloseTo(kelvin, within(2.5));
        assertThat(cct.duv().orElseThrow()).isCloseTo(duv, within(1e-4));
    }

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 1000);
    }

    /** The definition itself: walk from a point on the locus along its normal. */
    @ParameterizedTest
    @MethodSource("seeds")
    void aPointOffTheLocusIsFoundAgain(long seed) {
        Random random = new Random(seed);
        double kelvin = 1500 * Math.pow(10, random.nextDouble());
        double duv = Math.pow(2 * random.nextDouble() - 1, 3) * 0.049;
        UV1960 before = PlanckianLocus.at(kelvin * 0.9999);
        UV1960 after = PlanckianLocus.at(kelvin * 1.0001);
        double length = Math.hypot(after.u() - before.u(), after.v() - before.v());
        UV1960 foot = PlanckianLocus.at(kelvin);
        double up = (after.u() - before.u()) / length;
        UV1960 point = new UV1960(foot.u() + duv * (after.v() - before.v()) / length, foot.v() - duv * up);
        Cct cct = Cct.of(point);
        assertThat(cct.kelvin().orElseThrow()).isCloseTo(kelvin, within(kelvin < 10000 ? 0.1 : 0.3));
        assertThat(cct.duv().orElseThrow()).isCloseTo(duv, within(1e-6));
    }

    @Test
    void aColourWithoutATemperatureSaysWhy() {
        assertThat(Cct.of(RgbSpace.BT_709.green().toUV1960())).isEqualTo(Cct.OutOfRange.TOO_FAR_FROM_LOCUS);
        assertThat(Cct.of(PlanckianLocus.at(950))).isEqualTo(Cct.OutOfRange.BELOW_1000_K);
        assertThat(Cct.of(PlanckianLocus.at(150000))).isEqualTo(Cct.OutOfRange.ABOVE_100000_K);
        assertThat(Cct.OutOfRange.BELOW_1000_K.kelvin()).isEmpty();
    }
}
