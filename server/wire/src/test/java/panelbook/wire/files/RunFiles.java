package panelbook.wire.files;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.Objects;
import java.util.Random;
import panelbook.wire.Purpose;

/** Run files for tests: samples, pieces to put bad ones together from, and seeded generators. */
final class RunFiles {

    static final String HEADER = "red,green,blue,X_cd_m2,Y_cd_m2,Z_cd_m2\n";

    private RunFiles() {}

    static RunFileResult read(String text) {
        return read(text.getBytes(StandardCharsets.UTF_8), ReadOptions.defaults());
    }

    static RunFileResult read(byte[] bytes, ReadOptions options) {
        try {
            return RunFileReader.read(new ByteArrayInputStream(bytes), "run.file", options);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static byte[] sample(String name) {
        try (InputStream in = Objects.requireNonNull(RunFiles.class.getResourceAsStream(name), name)) {
            return in.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static String sampleText(String name) {
        return new String(sample(name), StandardCharsets.UTF_8);
    }

    static byte[] written(RunFile run, RunFileFormat format) {
        try {
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            RunFileWriter.write(run, format, out);
            return out.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** An ISO 28178 file with these lines between BEGIN_DATA and END_DATA. */
    static String iso(String data) {
        return isoHead() + "NUMBER_OF_SETS " + data.lines().count() + "\nBEGIN_DATA\n" + data + "END_DATA\n";
    }

    /** Ten lines: the first of what follows is line 11. */
    static String isoHead() {
        return "ISO28178\nORIGINATOR \"Invented data\"\n" + unit()
                + "NUMBER_OF_FIELDS 7\nBEGIN_DATA_FORMAT\n"
                + "SAMPLE_ID RGB_R RGB_G RGB_B\n"
                + "XYZ_X XYZ_Y XYZ_Z\nEND_DATA_FORMAT\n# remark\n";
    }

    private static String unit() {
        return "PANELBOOK_LUMINANCE_UNIT \"cd/m2\"\n";
    }

    /** Up to 200 readings. */
    static RunFile random(long seed) {
        return random(seed, 200);
    }

    /** A run of some readings with some metadata and the least pleasant numbers. */
    static RunFile random(long seed, int mostReadings) {
        Random random = new Random(seed);
        RunFile.Builder builder = RunFile.builder(randomMetadata(random));
        int size = 1 + random.nextInt(mostReadings);
        for (int i = 0; i < size; i++) {
            builder.add(i, random.nextInt(65536), random.nextInt(1024), value(random), value(random), value(random));
        }
        return builder.build();
    }

    private static RunMetadata randomMetadata(Random random) {
        return new RunMetadata(
                maybe(random, text(random)),
                maybe(random, text(random)),
                maybe(random, Purpose.values()[random.nextInt(4)]),
                maybe(random, text(random)),
                maybe(
                        random,
                        Instant.ofEpochSecond(
                                1_700_000_000L + random.nextInt(1_000_000_000), random.nextInt(1_000_000_000))),
                maybe(random, random.nextDouble() * 1e5),
                maybe(random, random.nextInt(10_000)),
                maybe(random, random.nextDouble() * 100));
    }

    private static <T> T maybe(Random random, T value) {
        return random.nextInt(4) == 0 ? null : value;
    }

    private static String text(Random random) {
        String letters = "aZ09 #:,;'\"/\\=éΔ漢🙂.-_%\u00A0";
        int[] points = letters.codePoints().toArray();
        StringBuilder text = new StringBuilder("x");
        for (int i = random.nextInt(40); i >= 0; i--) {
            text.appendCodePoint(points[random.nextInt(points.length)]);
        }
        return text.reverse().toString().strip();
    }

    /** Any finite double that is not negative, from the least subnormal to the greatest. */
    private static double value(Random random) {
        switch (random.nextInt(4)) {
            case 0:
                return random.nextDouble() * 1000;
            case 1:
                return random.nextInt(1000);
            case 2:
                return random.nextInt(3) * Double.MIN_VALUE;
            default:
                double any = Double.longBitsToDouble(random.nextLong() & Long.MAX_VALUE);
                return Double.isFinite(any) ? any : Double.MAX_VALUE;
        }
    }
}
