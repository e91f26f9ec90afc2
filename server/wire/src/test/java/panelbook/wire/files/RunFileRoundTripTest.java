package panelbook.wire.files;

import static org.assertj.core.api.Assertions.assertThat;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.CsvRecord;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.MethodSource;

class RunFileRoundTripTest {

    @ParameterizedTest
    @EnumSource(RunFileFormat.class)
    void readsBackWhatItWroteToTheLastBit(RunFileFormat format) {
        seeds().forEach(seed -> {
            RunFile run = RunFiles.random(seed);
            RunFileResult result = RunFiles.read(RunFiles.written(run, format), ReadOptions.defaults());
            assertThat(result).as("seed %d", seed).isInstanceOf(RunFileResult.Read.class);
            RunFileResult.Read read = (RunFileResult.Read) result;
            assertThat(read.remarks()).isEmpty();
            assertThat(read.format()).isEqualTo(format);
            assertThat(read.run().metadata()).as("metadata, seed %d", seed).isEqualTo(run.metadata());
            assertThat(read.run().entries()).as("readings, seed %d", seed).isEqualTo(run.entries());
            assertThat(read.run().digest()).as("digest, seed %d", seed).isEqualTo(run.digest());
        });
    }

    @ParameterizedTest
    @EnumSource(RunFileFormat.class)
    void givesTheSameDigestWhateverTheLineEnds(RunFileFormat format) {
        seeds().forEach(seed -> {
            RunFile run = RunFiles.random(seed);
            String text = new String(RunFiles.written(run, format), StandardCharsets.UTF_8);
            Random random = new Random(seed);
            for (String ends : List.of("\r\n", "\r", "mixed")) {
                StringBuilder other = new StringBuilder();
                text.lines()
                        .forEach(line -> other.append(line)
                                .append(
                                        ends.equals("mixed")
                                                ? List.of("\n", "\r\n", "\r").get(random.nextInt(3))
                                                : ends));
                assertThat(RunFiles.read(other.toString()).orElseThrow().digest())
                        .as("seed %d, line ends %s", seed, ends)
                        .isEqualTo(run.digest());
            }
        });
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void givesAnotherDigestWhenAnyReadingOrMetadataChange(long seed) {
        RunFile run = RunFiles.random(seed);
        Random random = new Random(seed);
        int changed = random.nextInt(run.size());
        RunFile.Builder other = RunFile.builder(run.metadata());
        int at = 0;
        for (FileReading r : run) {
            double y = at++ == changed ? (r.y() > 1 ? Math.nextDown(r.y()) : Math.nextUp(r.y())) : r.y();
            other.add(r.red(), r.green(), r.blue(), r.x(), y, r.z());
        }
        assertThat(other.build().digest()).isNotEqualTo(run.digest());
        assertThat(RunIds.of(other.build())).isNotEqualTo(RunIds.of(run));

        RunMetadata changedMetadata = new RunMetadata("another preset", null, null, null, null, null, null, null);
        assertThat(RunIds.of(run.withMetadata(changedMetadata.orElse(run.metadata()))))
                .as("the same readings for another preset are another run")
                .isNotEqualTo(RunIds.of(run));
    }

    /** FastCSV 4.2 (a general CSV library, RFC 4180) reads what we write; our own reader is not its only judge. */
    @ParameterizedTest
    @MethodSource("seeds")
    void writesCsvThatAGeneralLibraryReads(long seed) throws Exception {
        RunFile run = RunFiles.random(seed);
        String text = new String(RunFiles.written(run, RunFileFormat.CSV), StandardCharsets.UTF_8);
        try (CsvReader<CsvRecord> csv =
                CsvReader.builder().commentStrategy(CommentStrategy.SKIP).ofCsvRecord(text)) {
            List<CsvRecord> records = csv.stream().toList();
            assertThat(records).hasSize(run.size() + 1);
            for (int i = 0; i < run.size(); i++) {
                FileReading reading = run.reading(i);
                assertThat(records.get(i + 1).getFields())
                        .extracting(Double::parseDouble)
                        .containsExactly(
                                (double) reading.red(),
                                (double) reading.green(),
                                (double) reading.blue(),
                                reading.x(),
                                reading.y(),
                                reading.z());
            }
        }
    }

    /** Of a file that says how long it is, no beginning is taken for the whole. */
    @ParameterizedTest
    @EnumSource(RunFileFormat.class)
    void neverTakesTheBeginningOfAFileForAWholeRun(RunFileFormat format) {
        String sample = format == RunFileFormat.CSV ? "check.csv" : "check-iso28178.txt";
        byte[] file = RunFiles.sample(sample);
        RunFile whole = RunFiles.read(file, ReadOptions.defaults()).orElseThrow();
        assertCutsShow(file, whole);
        assertCutsShow(
                new String(file, StandardCharsets.UTF_8).replace("\n", "\r\n").getBytes(StandardCharsets.UTF_8), whole);
        RunFile random = RunFiles.random(2, 25);
        assertCutsShow(RunFiles.written(random, format), random);
    }

    private static void assertCutsShow(byte[] file, RunFile whole) {
        for (int length = 0; length < file.length; length++) {
            RunFileResult result = RunFiles.read(java.util.Arrays.copyOf(file, length), ReadOptions.defaults());
            if (result instanceof RunFileResult.Read read) {
                assertThat(read.run())
                        .as("cut after byte %d of %d", length, file.length)
                        .isEqualTo(whole);
            }
        }
    }

    /** Without a count a cut between two lines, or within the last number, cannot be seen; then the reader says so. */
    @Test
    void neverTakesTheBeginningOfAFileWithoutACountInSilence() {
        byte[] file =
                RunFiles.sampleText("check.csv").replace("# readings: 5\n", "").getBytes(StandardCharsets.UTF_8);
        for (int length = 0; length < file.length; length++) {
            RunFileResult result = RunFiles.read(java.util.Arrays.copyOf(file, length), ReadOptions.defaults());
            if (result instanceof RunFileResult.Read read) {
                assertThat(read.remarks()).as("cut after byte %d", length).isNotEmpty();
            }
        }
    }

    /** Whatever is done to a file, the reader answers: with a run or with problems, never with an exception. */
    @Test
    void answersWhateverBytesItMeets() {
        byte[][] files = {RunFiles.sample("check.csv"), RunFiles.sample("check-iso28178.txt")};
        for (long seed = 0; seed < 4000; seed++) {
            Random random = new Random(seed);
            byte[] file = files[random.nextInt(2)].clone();
            for (int i = 1 + random.nextInt(4); i > 0; i--) {
                file[random.nextInt(file.length)] = (byte) "\n\r,;\"#:.-+e0 \tX\u00ff".charAt(random.nextInt(16));
            }
            RunFileResult result = RunFiles.read(file, ReadOptions.defaults());
            assertThat(result).as("seed %d", seed).isNotNull();
        }
    }

    static LongStream seeds() {
        return LongStream.range(0, 60);
    }
}
