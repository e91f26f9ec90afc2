package panelbook.colorimetry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static panelbook.colorimetry.PublishedTable.number;
import static panelbook.colorimetry.PublishedTable.xyz;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class ColourDifferenceTest {
    /** Color Res. Appl. 30 (2005) 21-30, Table 1, four decimals. */
    @Test
    void allPairsOfSharmaWuAndDalal2005() {
        List<NamedCsvRecord> rows = PublishedTable.rows("ciede2000_sharma2005.csv");
        assertThat(rows).hasSize(34);
        for (NamedCsvRecord row : rows) {
            Lab a = new Lab(number(row, "L1"), number(row, "a1"), number(row, "b1"));
            Lab b = new Lab(number(row, "L2"), number(row, "a2"), number(row, "b2"));
            double published = number(row, "dE00");
            assertThat(ColourDifference.ciede2000(a, b))
                    .as("pair %s", row.getField("pair"))
                    .isCloseTo(published, within(5e-5));
            assertThat(ColourDifference.ciede2000(b, a))
                    .as("pair %s swapped", row.getField("pair"))
                    .isCloseTo(published, within(5e-5));
        }
    }

    /** ITU-R BT.2124-0 with BT.2100-2 PQ ICtCp, written out directly from the Recommendations (column dE_spec). */
    @Test
    void itpOfFortyEightPairsByTheDefinitionOfBt2124() {
        List<NamedCsvRecord> rows = PublishedTable.rows("delta_e_itp_pairs.csv");
        assertThat(rows).hasSize(48);
        for (NamedCsvRecord row : rows) {
            XYZ a = xyz(row, "X1", "Y1", "Z1");
            XYZ b = xyz(row, "X2", "Y2", "Z2");
            // the table prints XYZ to 8 and the result to 9 digits
            assertThat(ColourDifference.itp(a, b))
                    .as(row.getField("pair"))
                    .isCloseTo(number(row, "dE_spec"), within(2e-5));
            ICtCp first = ICtCp.of(a);
            assertThat(first.i()).as(row.getField("pair")).isCloseTo(number(row, "I1"), within(1e-8));
            assertThat(first.ct() / 2).as(row.getField("pair")).isCloseTo(number(row, "T1"), within(1e-8));
            assertThat(first.cp()).as(row.getField("pair")).isCloseTo(number(row, "P1"), within(1e-8));
        }
    }

    /** colorjs.io 0.7.1; the file tells the command. It has a matrix from XYZ to LMS of its own. */
    @Test
    void itpOfFortyEightPairsByAnIndependentLibrary() {
        List<NamedCsvRecord> pairs = PublishedTable.rows("delta_e_itp_pairs.csv");
        List<NamedCsvRecord> independent = PublishedTable.rows("delta_e_itp_colorjs.csv");
        assertThat(independent).hasSameSizeAs(pairs).hasSize(48);
        for (int i = 0; i < pairs.size(); i++) {
            NamedCsvRecord row = pairs.get(i);
            assertThat(independent.get(i).getField("pair")).isEqualTo(row.getField("pair"));
            double ours = ColourDifference.itp(xyz(row, "X1", "Y1", "Z1"), xyz(row, "X2", "Y2", "Z2"));
            assertThat(ours).as(row.getField("pair")).isCloseTo(number(independent.get(i), "dE_colorjs"), within(1e-9));
        }
    }

    /** A table of I, Ct, Cp pairs from the tests of a general-purpose colour library; see the file. */
    @Test
    void itpOfTabulatedIctcpPairs() {
        for (NamedCsvRecord row : PublishedTable.rows("delta_e_itp_ictcp_pairs.csv")) {
            ICtCp a = new ICtCp(number(row, "I1"), number(row, "Ct1"), number(row, "Cp1"));
            ICtCp b = new ICtCp(number(row, "I2"), number(row, "Ct2"), number(row, "Cp2"));
            assertThat(ColourDifference.itp(a, b))
                    .as(row.getField("patch"))
                    .isCloseTo(number(row, "dE_ITP"), within(1e-6));
        }
    }

    static LongStream seeds() {
        return LongStream.rangeClosed(1, 300);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void differencesAreSymmetricNotNegativeAndZeroForEqualColours(long seed) {
        Random random = new Random(seed);
        XYZ a = ConversionsTest.anyLight(random);
        XYZ b = ConversionsTest.anyLight(random);
        XYZ white = XYZ.of(Chromaticity.D65, 100);
        Lab labA = Lab.of(a, white);
        Lab labB = Lab.of(b, white);
        UV1976 uvA = a.uv1976().orElseThrow();
        UV1976 uvB = b.uv1976().orElseThrow();
        assertThat(ColourDifference.itp(a, b))
                .isEqualTo(ColourDifference.itp(b, a))
                .isPositive();
        double ciede2000 = ColourDifference.ciede2000(labA, labB);
        assertThat(ciede2000)
                .isCloseTo(ColourDifference.ciede2000(labB, labA), within(1e-9 * ciede2000))
                .isPositive();
        assertThat(ColourDifference.uv1976(uvA, uvB))
                .isEqualTo(ColourDifference.uv1976(uvB, uvA))
                .isPositive();
        assertThat(ColourDifference.itp(a, a)).isZero();
        assertThat(ColourDifference.ciede2000(labA, labA)).isZero();
        assertThat(ColourDifference.uv1976(uvA, uvA)).isZero();
    }
}
