package panelbook.wire.files;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.io.SequenceInputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Files of 100 MB, made on the fly and read by a Java program of its own with a heap far smaller than the file. */
class HugeRunFileTest {

    private static final long HUNDRED_MB = 100_000_000;

    @TempDir
    Path folder;

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "rows      | TOO_MANY_READINGS",
                "badRows   | CODE_NOT_WHOLE",
                "remarks   | NO_READINGS",
                "oneLine   | LINE_TOO_LONG",
                "zeros     | NOT_TEXT",
                "badUtf8   | NOT_UTF8",
                "keywords  | STRUCTURE",
                "sets      | TOO_MANY_READINGS"
            })
    void answersAFileOfAHundredMegabytesInAHeapOfThirtyTwo(String kind, RunFileReason reason) throws Exception {
        assertThat(run(kind)).startsWith("refused").contains(reason.name());
    }

    @Test
    void readsTheGreatestRunInAHeapOfSixtyFour() throws Exception {
        assertThat(run("greatest")).startsWith("read 300000");
    }

    private String run(String kind) throws Exception {
        File output = folder.resolve("output").toFile();
        Process process = new ProcessBuilder(List.of(
                        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                        kind.equals("greatest") ? "-Xmx64m" : "-Xmx32m",
                        "-XX:+UseSerialGC",
                        "-cp",
                        place(RunFileReader.class) + File.pathSeparator + place(HugeRunFileTest.class),
                        HugeRunFileTest.Main.class.getName(),
                        kind))
                .redirectErrorStream(true)
                .redirectOutput(output)
                .start();
        boolean ended = process.waitFor(60, TimeUnit.SECONDS);
        if (!ended) {
            process.destroyForcibly();
        }
        assertThat(ended).as("the answer came within a minute").isTrue();
        return java.nio.file.Files.readString(output.toPath());
    }

    private static String place(Class<?> type) throws Exception {
        return Path.of(type.getProtectionDomain().getCodeSource().getLocation().toURI())
                .toString();
    }

    /** The program: reads one generated file and says what came of it. */
    static final class Main {

        private Main() {}

        public static void main(String[] arguments) throws IOException {
            RunFileResult result = RunFileReader.read(file(arguments[0]), "huge.file", ReadOptions.defaults());
            if (result instanceof RunFileResult.Refused refused) {
                System.out.println("refused " + refused.total());
                refused.problems().forEach(p -> System.out.println(p.reason() + " " + p.text()));
            } else {
                System.out.println("read " + result.orElseThrow().size());
            }
        }

        private static InputStream file(String kind) {
            return switch (kind) {
                case "rows" -> after(RunFiles.HEADER, Main::row);
                case "greatest" -> limited(RunFiles.HEADER, Main::row, RunFile.MAX_READINGS);
                case "badRows" -> after(RunFiles.HEADER, i -> "0.5,x,-3,nan,1e999,\n");
                case "remarks" -> after(RunFiles.HEADER, i -> "# nothing to see in line " + i + "\n");
                case "oneLine" -> after(RunFiles.HEADER, i -> "0.123456789");
                case "zeros" -> after(RunFiles.HEADER, i -> "\0\0\0\0\0\0\0\0");
                case "badUtf8" -> after(RunFiles.HEADER, i -> null);
                case "keywords" -> after("ISO28178\n", i -> "KEYWORD \"INVENTED_" + i + "\"\n");
                case "sets" ->
                    after(
                            RunFiles.isoHead() + "BEGIN_DATA\n",
                            i -> i + " " + i % 65536 + " " + i / 65536 + " 0 12.345678901 23.4567891 34.567891\n");
                default -> throw new IllegalArgumentException(kind);
            };
        }

        private static String row(long i) {
            return i % 65536 + "," + i / 65536 + ",0,123.45678901234567,234.56789012345678,345.67890123456789\n";
        }

        private static InputStream after(String head, Lines lines) {
            return limited(head, lines, Long.MAX_VALUE);
        }

        private static InputStream limited(String head, Lines lines, long count) {
            InputStream first = new java.io.ByteArrayInputStream(head.getBytes(StandardCharsets.UTF_8));
            return new SequenceInputStream(first, new Generated(lines, count));
        }
    }

    /** Text of a line by its number; null for a line that is not UTF-8. */
    interface Lines {
        String line(long number);
    }

    /** A stream of generated lines, a hundred megabytes or so many lines. */
    static final class Generated extends InputStream {

        private final Lines lines;
        private final long count;
        private long made;
        private long bytes;
        private byte[] current = {};
        private int position;

        Generated(Lines lines, long count) {
            this.lines = lines;
            this.count = count;
        }

        @Override
        public int read() {
            throw new UnsupportedOperationException("read many");
        }

        @Override
        public int read(byte[] into, int offset, int length) {
            if (position == current.length && !next()) {
                return -1;
            }
            int part = Math.min(length, current.length - position);
            System.arraycopy(current, position, into, offset, part);
            position += part;
            return part;
        }

        private boolean next() {
            if (made == count || bytes >= HUNDRED_MB) {
                return false;
            }
            String line = lines.line(made++);
            current = line == null ? new byte[] {'1', ',', (byte) 0xC3, '\n'} : line.getBytes(StandardCharsets.UTF_8);
            position = 0;
            bytes += current.length;
            return true;
        }
    }
}
