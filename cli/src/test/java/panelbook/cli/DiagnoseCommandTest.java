package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.function.DoubleUnaryOperator;
import org.junit.jupiter.api.Test;
import panelbook.cli.json.Records;
import panelbook.colorimetry.St2084;
import panelbook.wire.DiagnosedExplanation;
import panelbook.wire.Diagnosis;

/** What a grey ramp says of the signal path: of a file on this machine, of a run through the service, and on each upload. */
class DiagnoseCommandTest extends CommandTest {

    private static final String SUMMARY =
            "Signal path suspect: narrow range expanded as full, about 340 to one against peak"
                    + " limited. Check first: a converter.";

    /** A ramp of eleven greys for the target HDR 1000, PQ in full range at 10 bit: SMPTE ST 2084, BT.2100-2 table 9. */
    private void ramp(String file, DoubleUnaryOperator signalShown) {
        var lines = new ArrayList<>(List.of(
                "# preset: Suite 1/Main/HDR",
                "# instrument: Meter 1",
                "# purpose: check",
                "# operator: Mara",
                "# taken-at: 2026-03-31T10:00:00Z",
                "# readings: 11",
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2"));
        for (var step = 0; step <= 10; step++) {
            var code = Math.round(step * 102.3);
            var shown = Math.max(0, Math.min(1, signalShown.applyAsDouble(code / 1023.0)));
            var y = Math.max(0.005, Math.min(1000, St2084.luminance(shown)));
            lines.add(code + "," + code + "," + code + "," + 0.9505 * y + "," + y + "," + 1.0891 * y);
        }
        desk.write(file, lines.toArray(String[]::new));
    }

    @Test
    void aFileIsDiagnosedHereAndNothingIsUploaded() {
        ramp("squeezed.csv", v -> (64 + 876 * v) / 1023);
        assertThat(desk.type("run", "diagnose", "squeezed.csv")).as(desk.err).isEqualTo(3);
        assertThat(desk.out)
                .contains(
                        "SUMMARY\tSignal path suspect: full range squeezed to narrow, more than a million to one against ",
                        "LIKELIEST\tfull-squeezed-to-narrow\n",
                        "SUSPECT\ttrue\n",
                        "CHECK FIRST\tthe range that the source puts out, and a converter in the feed\n",
                        "LEVELS\t11\n");
        assertThat(desk.lines())
                .filteredOn(line -> line.startsWith("as-intended\t"))
                .hasSize(1);
        ramp("right.csv", v -> v);
        done("run", "diagnose", "right.csv", "--target", "HDR 1000");
        assertThat(desk.out).contains("LIKELIEST\tas-intended\n", "SUSPECT\tfalse\n");
        done("run", "diagnose", "right.csv", "--json=suspect");
        assertThat(desk.out).isEqualTo("{\"suspect\":false}\n");
        assertThat(stub.runsInOrder).isEmpty();
    }

    @Test
    void withoutTheServiceTheTargetAsLastSeenWillDo() {
        ramp("squeezed.csv", v -> (64 + 876 * v) / 1023);
        desk.type("run", "diagnose", "squeezed.csv");
        stub.stop();
        assertThat(desk.type("run", "diagnose", "squeezed.csv")).as(desk.err).isEqualTo(3);
        assertThat(desk.err).contains("The service is away: diagnosed against HDR 1000 as last seen.");
        fails(1, "cannot be reached", "run", "diagnose", "squeezed.csv", "--preset", "Suite 9/Main/HDR");
    }

    @Test
    void whatIsNoRampIsAnsweredWithWhatIsMissing() {
        run("short.csv", "2026-03-31T10:00:00Z");
        fails(
                1,
                "short.csv: a signal path is told from at least 5 greys from black to white, but there are 3; measure a"
                        + " longer ramp.",
                "run",
                "diagnose",
                "short.csv");
        fails(1, "nowhere.csv cannot be read", "run", "diagnose", "nowhere.csv");
        desk.write("nonsense.csv", "not,a,run");
        fails(1, "nonsense.csv cannot be read as a run", "run", "diagnose", "nonsense.csv");
    }

    @Test
    void aRunInTheBookIsDiagnosedByTheService() {
        done("run", "upload", run("a.csv", "2026-03-31T10:00:00Z").toString());
        var run = stub.things.get("runs").keySet().iterator().next();
        stub.things.get("runs").get(run).put("diagnosis", Records.deepTree(suspect()));
        assertThat(desk.type("run", "diagnose", run)).as(desk.err).isEqualTo(3);
        assertThat(desk.out)
                .contains("SUMMARY\t" + SUMMARY + "\n", "MARGIN\t11.7\n", "narrow-expanded-as-full\t1.2\t30.5\t")
                .contains("CORRECTED\tDisc meter on Client (display), version 2\n");
        fails(2, "go with a file", "run", "diagnose", run, "--target", "HDR 1000");
    }

    @Test
    void aSuspectPathIsPlainInTheAnswerToAnUpload() {
        stub.diagnosisOfUploads = Records.deepTree(suspect());
        run("a.csv", "2026-03-31T10:00:00Z");
        done("run", "upload", "a.csv");
        assertThat(desk.lines()).contains("a.csv\tsignal-path\tsuspect\tNorth/Suite 1/Main/HDR\t" + SUMMARY);
    }

    private static Diagnosis suspect() {
        return new Diagnosis(
                UUID.randomUUID(),
                Instant.parse("2026-03-31T10:00:00Z"),
                11,
                "narrow-expanded-as-full",
                "peak-limited",
                11.7,
                List.of(),
                true,
                true,
                "a converter",
                SUMMARY,
                List.of("Disc meter on Client (display), version 2"),
                List.of(new DiagnosedExplanation("narrow-expanded-as-full", 1.2, 30.5, 1000, 0.005)));
    }
}
