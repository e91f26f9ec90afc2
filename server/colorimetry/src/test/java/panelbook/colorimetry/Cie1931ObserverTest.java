package panelbook.colorimetry;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;
import static panelbook.colorimetry.PublishedTable.number;

import de.siegmar.fastcsv.reader.NamedCsvRecord;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class Cie1931ObserverTest {
    /** ISO/CIE 11664-1:2019. */
    @Test
    void theColourMatchingFunctionsAreThoseOfTheStandard() {
        List<NamedCsvRecord> rows = PublishedTable.rows("cmf_cie1931_2deg_1nm.csv");
        assertThat(rows).hasSize(471);
        for (NamedCsvRecord row : rows) {
            int nm = (int) number(row, "wavelength_nm");
            assertThat(Cie1931Observer.xBar(nm)).as("%d nm", nm).isEqualTo(number(row, "xbar"));
            assertThat(Cie1931Observer.yBar(nm)).as("%d nm", nm).isEqualTo(number(row, "ybar"));
            assertThat(Cie1931Observer.zBar(nm)).as("%d nm", nm).isEqualTo(number(row, "zbar"));
        }
    }

    /** CIE 015:2018 and ISO/CIE 11664-2: chromaticities of the illuminants; 5 nm sums from 360 to 780 nm come within 3e-5 of them. */
    @ParameterizedTest
    @CsvSource({
        "A, 0.44758, 0.40745",
        "D50, 0.34567, 0.35850",
        "D55, 0.33243, 0.34744",
        "D65, 0.31272, 0.32903",
        "D75, 0.29903, 0.31488"
    })
    void spectraOfTheIlluminantsGiveTheirPublishedChromaticity(String illuminant, double x, double y) {
        double[] spectrum = PublishedTable.column("illuminants_5nm.csv", illuminant);
        Chromaticity c =
                Cie1931Observer.tristimulus(300, 5, spectrum).chromaticity().orElseThrow();
        assertThat(c.x()).isCloseTo(x, within(3e-5));
        assertThat(c.y()).isCloseTo(y, within(3e-5));
    }

    /** SI: 683 lm/W at 555 nm, where V is 1. */
    @Test
    void aWattAtThePeakOfVIsSixHundredAndEightyThreeLumens() {
        assertThat(Cie1931Observer.tristimulus(555, 1, new double[] {1}).y()).isCloseTo(683, within(1e-9));
    }

    @Test
    void aWavelengthOutsideTheTableIsRefused() {
        assertThatThrownBy(() -> Cie1931Observer.yBar(831))
                .isInstanceOf(IllegalArgumentException.class)
                .hasMessage("wavelength in nm must lie from 360 to 830, but is 831");
    }
}
