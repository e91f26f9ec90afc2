package panelbook.wire.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class RunIdsTest {

    /** RFC 9562 (2024), appendix A.4: the name www.example.com in the name space of DNS names. */
    @Test
    void makesTheUuidOfTheStandardsExample() {
        UUID dns = UUID.fromString("6ba7b810-9dad-11d1-80b4-00c04fd430c8");
        assertThat(RunIds.nameBased(dns, "www.example.com".getBytes(StandardCharsets.UTF_8)))
                .isEqualTo(UUID.fromString("2ed6657d-e927-568b-95e1-2665a8aea6a2"));
    }

    /**
     * Laid out and hashed by hand with Python's struct, hashlib and uuid from the description in CanonicalContent. The
     * values may never change: a file that is uploaded again after an update must still be the same run.
     */
    @Test
    void givesTheSampleTheIdThatItHasForEver() {
        RunFile run = RunFiles.read(RunFiles.sampleText("check.csv")).orElseThrow();
        assertThat(run.digest()).isEqualTo("84ee60955e062afc1ca9307bd4726d3b4334a42a87e1909e79bf4d5263eb7e73");
        assertThat(RunIds.of(run)).hasToString("a778c03f-a0b6-5cdd-b19a-3ebf683a0f25");
        assertThat(RunIds.of(run).version()).isEqualTo(5);
    }

    @Test
    void givesARepeatedUploadTheSameIdHoweverItsNumbersAreSpelt() {
        String plain = RunFiles.HEADER + "1,2,3,100,5.5,0\n";
        String spelt = "\n# a remark\n" + RunFiles.HEADER + "01,2,3,1e2,5.50,-0.0\r\n";
        assertThat(RunIds.of(RunFiles.read(spelt).orElseThrow()))
                .isEqualTo(RunIds.of(RunFiles.read(plain).orElseThrow()));
    }
}
