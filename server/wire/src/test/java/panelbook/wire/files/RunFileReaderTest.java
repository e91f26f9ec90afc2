package panelbook.wire.files;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import panelbook.wire.Purpose;
import panelbook.wire.SignalRange;

class RunFileReaderTest {

    private static final RunMetadata DESCRIBED = new RunMetadata(
            "Invented House/Room 4/Left/HDR",
            "Invented meter 2",
            Purpose.CHECK,
            "A. N. Operator",
            Instant.parse("2026-11-25T08:30:00Z"),
            4321.5,
            75,
            4.5);

    @Test
    void readsEverythingThatACsvFileHolds() {
        RunFile run = RunFiles.read(RunFiles.sampleText("check.csv")).orElseThrow();

        assertThat(run.metadata()).isEqualTo(DESCRIBED);
        assertThat(run)
                .containsExactly(
                        new FileReading(0, 0, 0, 0.00475, 0.005, 0.00545, 12),
                        new FileReading(1023, 0, 0, 96.2, 45.1, 0.3, 13),
                        new FileReading(0, 1023, 0, 132.5, 312.75, 18.25, 14),
                        new FileReading(0, 0, 1023, 71.5, 30.25, 392, 15),
                        new FileReading(1023, 1023, 1023, 299.125, 388.5, 410.0625, 16));
        assertThat(run.entries())
                .hasSize(5)
                .last()
                .hasToString(run.reading(4).entry().toString());
    }

    @Test
    void readsTheSameRunFromAnIso28178File() {
        RunFileResult result = RunFiles.read(RunFiles.sampleText("check-iso28178.txt"));

        assertThat(result).isInstanceOf(RunFileResult.Read.class);
        RunFileResult.Read read = (RunFileResult.Read) result;
        assertThat(read.format()).isEqualTo(RunFileFormat.ISO_28178);
        assertThat(read.remarks()).isEmpty();
        assertThat(read.run())
                .as("the same content in another format is the same run")
                .isEqualTo(RunFiles.read(RunFiles.sampleText("check.csv")).orElseThrow());
        assertThat(read.run().reading(4).line()).as("line of the white patch").isEqualTo(37);
    }

    /** The file was written by the general-purpose colour engine Little CMS 2.14 (cmsIT8SaveToFile) from check.csv. */
    @Test
    void readsAFileThatAnotherLibraryWrote() {
        RunFile run =
                RunFiles.read(RunFiles.sampleText("written-by-little-cms.txt")).orElseThrow();

        RunFile same = RunFiles.read(RunFiles.sampleText("check.csv")).orElseThrow();
        assertThat(run.entries()).isEqualTo(same.entries());
        assertThat(run.metadata().preset()).isEqualTo("Invented House/Room 4/Left/HDR");
    }

    @Test
    void tellsFormatsApartByContentWhateverTheNameOfTheFile() {
        RunFileResult csv = RunFiles.read(RunFiles.sampleText("check.csv"));
        assertThat(((RunFileResult.Read) csv).format()).isEqualTo(RunFileFormat.CSV);
        assertThat(RunFiles.read("CGATS.17\n" + RunFiles.iso("1 0 0 0 1 1 1\n").substring(9)))
                .as("a file of a predecessor of ISO 28178")
                .isInstanceOf(RunFileResult.Read.class);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2\n1,2,3,4.5,5.5,6.5\n",
                "\uFEFFred,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2\n1,2,3,4.5,5.5,6.5\n",
                "red;green;blue;X_cd_m2;Y_cd_m2;Z_cd_m2\n1;2;3;4.5;5.5;6.5\n",
                "red\tgreen\tblue\tX_cd_m2\tY_cd_m2\tZ_cd_m2\n1\t2\t3\t4.5\t5.5\t6.5\n",
                "Z_cd_m2,Y_cd_m2,X_cd_m2,blue,green,red\n6.5,5.5,4.5,3,2,1\n",
                "\"red\", \"green\" ,blue,X_cd_m2,Y_cd_m2,Z_cd_m2\n\"1\", 2 ,3,\"4.5\",+5.50,0.65e1",
                "RED,Green,blue,x_CD_m2,y_cd_M2,z_cd_m2\r\n\r\n1,2,3,4.5,5.5,6.5\r\n\r\n",
                "\n## for people: ignored\n# for people\nred,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2\r1,2,3,4.5,5.5,6.5\r# done"
            })
    void acceptsTheSpellingsOfCsvThatLeaveNoDoubt(String text) {
        assertThat(RunFiles.read(text).orElseThrow())
                .isEqualTo(RunFile.builder(RunMetadata.empty())
                        .add(1, 2, 3, 4.5, 5.5, 6.5)
                        .build());
    }

    @Test
    void saysWhenAFileWithoutACountMightBeCut() {
        RunFileResult.Read read = (RunFileResult.Read) RunFiles.read(RunFiles.HEADER + "1,2,3,4,5,6\n");
        assertThat(read.remarks()).singleElement().asString().contains("run.file", "# readings: 1");

        RunFileResult.Read counted =
                (RunFileResult.Read) RunFiles.read("# readings: 1\n" + RunFiles.HEADER + "1,2,3,4,5,6\n");
        assertThat(counted.remarks()).isEmpty();
    }

    @Test
    void readsMetadataThatASpreadsheetHasFilledUpWithSeparators() {
        RunFile run = RunFiles.read(
                        "# preset: Room 4/HDR,,,,,\n# panel-hours: 12,,,,,\n" + RunFiles.HEADER + "1,2,3,4,5,6\n")
                .orElseThrow();
        assertThat(run.metadata().preset()).isEqualTo("Room 4/HDR");
        assertThat(run.metadata().panelHours()).isEqualTo(12);
    }

    /** Judged by the JDK's own reader of ISO 8601. */
    @Test
    void readsTimesOfAnyOffsetAndPrecision() {
        Random random = new Random(7);
        for (int i = 0; i < 500; i++) {
            OffsetDateTime time = Instant.ofEpochSecond(
                            1_500_000_000L + random.nextInt(1_000_000_000),
                            i % 3 == 0 ? random.nextInt(1_000_000_000) : 0)
                    .atOffset(ZoneOffset.ofTotalSeconds(60 * (random.nextInt(2 * 18 * 60 + 1) - 18 * 60)));
            assertThat(timeOf(time.toString())).as("%s", time).isEqualTo(time.toInstant());
        }
        assertThat(timeOf("2026-11-25 09:30:00+01:00")).isEqualTo(Instant.parse("2026-11-25T08:30:00Z"));
        assertThat(timeOf("2026-11-25T09:30Z")).isEqualTo(Instant.parse("2026-11-25T09:30:00Z"));
    }

    private static Instant timeOf(String text) {
        RunFileResult result = RunFiles.read("# taken-at: " + text + "\n" + RunFiles.HEADER + "1,2,3,4,5,6\n");
        return result.orElseThrow().metadata().takenAt();
    }

    @Test
    void takesTheCodeRangeFromTheCallerWhenTheTargetIsKnown() {
        byte[] file =
                (RunFiles.HEADER + "3,4,1019,1,1,1\n4,4,1020,1,1,1\n4,4,4,1,1,1\n").getBytes(StandardCharsets.UTF_8);

        assertThat(RunFiles.read(file, ReadOptions.defaults())).isInstanceOf(RunFileResult.Read.class);
        RunFileResult narrow =
                RunFiles.read(file, ReadOptions.defaults().withCodeRange(CodeRange.of(SignalRange.NARROW, 10)));
        assertThat(((RunFileResult.Refused) narrow).problems())
                .extracting(RunFileProblem::text)
                .satisfiesExactly(
                        first -> assertThat(first)
                                .contains("line 2", "red", "3 lies outside 4 to 1019 (10-bit narrow range)"),
                        second -> assertThat(second).contains("line 3", "blue", "1020 lies outside"));
    }

    @Test
    void checksCodesLaterWithTheSameAnswersWhenTheTargetIsKnownOnlyThen() {
        for (String text : List.of(
                RunFiles.HEADER + "3,4,1019,1,1,1\n4,4,1020,1,1,1\n4,4,4,1,1,1\n",
                RunFiles.iso("1 3 4 5 1 1 1\n2 65535 0 7 1 1 1\n"))) {
            byte[] file = text.getBytes(StandardCharsets.UTF_8);
            CodeRange range = CodeRange.narrow(10);
            RunFileResult.Read read = (RunFileResult.Read) RunFiles.read(file, ReadOptions.defaults());

            assertThat(RunFileReader.checkCodes(read, "run.file", range))
                    .isEqualTo(RunFiles.read(file, ReadOptions.defaults().withCodeRange(range)));
            assertThat(RunFileReader.checkCodes(read, "run.file", CodeRange.any()))
                    .isSameAs(read);
        }
    }

    /** ITU-R BT.2100-2 table 9: video data 4 to 1019 at 10 bit, 16 to 4079 at 12; ITU-R BT.709-6: 1 to 254 at 8. */
    @Test
    void knowsTheVideoDataOfNarrowRangeSignals() {
        assertThat(List.of(8, 10, 12))
                .extracting(bits -> CodeRange.narrow(bits).minInclusive() + "–"
                        + CodeRange.narrow(bits).maxInclusive())
                .containsExactly("1–254", "4–1019", "16–4079");
        assertThat(CodeRange.of(SignalRange.FULL, 10)).isEqualTo(new CodeRange(0, 1023, "10-bit full range"));
        assertThatThrownBy(() -> CodeRange.full(17)).hasMessageContaining("17").hasMessageContaining("8 to 16");
    }

    @Test
    void fillsInWhatTheFileLeavesOpenAndKeepsWhatItSays() {
        RunMetadata file = new RunMetadata("Room 4", null, null, null, null, 12.5, null, null);
        RunMetadata typed = new RunMetadata("Room 5", "Meter", Purpose.MATCH, null, null, null, 3, null);

        assertThat(file.orElse(typed))
                .isEqualTo(new RunMetadata("Room 4", "Meter", Purpose.MATCH, null, null, 12.5, 3, null));
    }

    @Test
    void leavesTheStreamOpenAndListsNoMoreProblemsThanAsked() {
        StringBuilder text = new StringBuilder(RunFiles.HEADER);
        for (int i = 0; i < 250; i++) {
            text.append("1,2,3,-1,1,1\n");
        }
        RunFileResult.Refused refused = (RunFileResult.Refused) RunFiles.read(text.toString());
        assertThat(refused.problems()).hasSize(100);
        assertThat(refused.total()).isEqualTo(250);
        assertThat(refused.text()).endsWith("and 150 more\n");
        assertThatThrownBy(refused::orElseThrow)
                .isInstanceOf(RunFileRefusedException.class)
                .hasMessageContaining("run.file, line 2, X_cd_m2: -1 cd/m² is negative");
    }
}
