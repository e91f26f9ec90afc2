package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;

/** What a person at the prompt reads of a file that is not right: where, what and what to do; and nothing is uploaded. */
class BadRunFileTest extends CommandTest {

    private static final String HEADER = "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2";
    private static final String WHITE = "1023,1023,1023,950.2,1000.1,1088.7";

    static Stream<Arguments> faults() {
        return Stream.of(
                fault(
                        "an unknown column",
                        List.of("red,gren,blue,X_cd_m2,Y_cd_m2,Z_cd_m2", WHITE),
                        ", line 1",
                        "Did you mean green?"),
                fault("a wrong unit", List.of("red,green,blue,X_fL,Y_fL,Z_fL", WHITE), ", line 1", "X_fL", "3.426"),
                fault("a negative value", List.of(HEADER, "0,0,0,0.1,-0.2,0.1"), ", line 2, Y_cd_m2: ", "-0.2"),
                fault("a value that is no number", List.of(HEADER, "0,0,0,NaN,1,1"), ", line 2, X_cd_m2: ", "'NaN'"),
                fault("an infinite value", List.of(HEADER, "0,0,0,1,1,Inf"), ", line 2, Z_cd_m2: ", "'Inf'"),
                fault(
                        "a patch measured twice",
                        List.of(HEADER, WHITE, "0,0,0,1,1,1", WHITE),
                        ", line 4",
                        "line 2",
                        "delete one of the lines"),
                fault("a code that no signal has", List.of(HEADER, "70000,0,0,1,1,1"), ", line 2, red: ", "65535"),
                fault("a row cut short", List.of(HEADER, WHITE, "0,0,0,0.1"), ", line 3", "Complete"),
                fault(
                        "a file cut short",
                        List.of("# readings: 3", HEADER, WHITE, "0,0,0,1,1,1"),
                        "3",
                        "Copy or export it again"),
                fault("ISO 28178 cut short", cutIso(), "END_DATA", "Copy or export it again"),
                fault("ISO 28178 without a unit", isoWithoutUnit(), "PANELBOOK_LUMINANCE_UNIT \"cd/m2\""));
    }

    private static Arguments fault(String name, List<String> lines, String... words) {
        return Arguments.of(name, lines, List.of(words));
    }

    private static List<String> cutIso() {
        return List.of(
                "ISO28178",
                "PANELBOOK_LUMINANCE_UNIT \"cd/m2\"",
                "NUMBER_OF_FIELDS 6",
                "BEGIN_DATA_FORMAT",
                "RGB_R RGB_G RGB_B XYZ_X XYZ_Y XYZ_Z",
                "END_DATA_FORMAT",
                "NUMBER_OF_SETS 2",
                "BEGIN_DATA",
                "0 0 0 0.1 0.1 0.1");
    }

    private static List<String> isoWithoutUnit() {
        return Stream.concat(cutIso().stream(), Stream.of("1 1 1 0.1 0.1 0.1", "END_DATA"))
                .filter(line -> !line.startsWith("PANELBOOK"))
                .toList();
    }

    @ParameterizedTest(name = "{0}")
    @MethodSource("faults")
    void isAnsweredWithPlaceAndMendAndUploadsNothing(String name, List<String> lines, List<String> words) {
        desk.write("bad.csv", lines.toArray(String[]::new));
        upload("bad.csv");
        assertThat(desk.err).as(name).contains("bad.csv").contains(words);
        assertThat(stub.runsInOrder).isEmpty();
    }

    @Test
    void aFileOfAHundredMegabytesIsAnsweredByTheMostThatARunHolds() throws IOException {
        var file = desk.write("huge.csv", HEADER);
        try (var out =
                Files.newBufferedWriter(file, StandardCharsets.US_ASCII, java.nio.file.StandardOpenOption.APPEND)) {
            var bytes = 0L;
            for (var i = 0; bytes < 100_000_000; i++) {
                var row = i / 65536 + "," + i % 65536 + ",0,100.00001,100.00002,100.00003\n";
                out.write(row);
                bytes += row.length();
            }
        }
        upload("huge.csv");
        assertThat(desk.err).contains("huge.csv", "300000");
        assertThat(stub.runsInOrder).isEmpty();
        Files.delete(file);
    }

    private void upload(String file) {
        fails(
                1,
                file,
                "run",
                "upload",
                file,
                "--preset",
                "Suite 1/Main/HDR",
                "--instrument",
                "Meter 1",
                "--purpose",
                "check",
                "--operator",
                "Mara",
                "--taken-at",
                "2026-03-31T10:00:00Z");
    }
}
