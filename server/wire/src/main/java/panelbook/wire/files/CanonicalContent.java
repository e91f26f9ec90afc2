package panelbook.wire.files;

import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Purpose;

/**
 * The content of a run as bytes, the same whatever file it was read from. In order: {@code panelbook run 1} in ASCII; the
 * eight metadata in the order of {@link RunMetadata}, each as a byte (0 absent, 1 present) and its value (a text as the
 * length of its UTF-8 in 4 bytes and the UTF-8; a time as seconds since 1970 in 8 and nanoseconds in 4 bytes; a number as
 * an IEEE 754 double); the number of readings in 4 bytes; each reading as three codes of 4 bytes and three doubles. All
 * big-endian. Changing any of this changes the ids of runs that are uploaded again: never do so.
 */
final class CanonicalContent {

    private static final int READING_BYTES = 3 * Integer.BYTES + 3 * Double.BYTES;

    private final MessageDigest sha256;
    private final ByteBuffer buffer = ByteBuffer.allocate(128 * READING_BYTES);

    private CanonicalContent(MessageDigest sha256) {
        this.sha256 = sha256;
    }

    /** SHA-256 of the content; {@code codes} and {@code xyz} hold three values a reading. */
    static byte[] sha256(RunMetadata metadata, int size, int[] codes, double[] xyz) {
        CanonicalContent content = new CanonicalContent(digest("SHA-256"));
        content.sha256.update("panelbook run 1".getBytes(StandardCharsets.US_ASCII));
        content.put(metadata);
        content.put(size, codes, xyz);
        return content.sha256.digest();
    }

    /** A digest that every Java platform has. */
    static MessageDigest digest(String algorithm) {
        try {
            return MessageDigest.getInstance(algorithm);
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("this Java platform lacks " + algorithm, e);
        }
    }

    private void put(RunMetadata metadata) {
        put(metadata.preset());
        put(metadata.instrument());
        Purpose purpose = metadata.purpose();
        put(purpose == null ? null : purpose.toString());
        put(metadata.operator());
        put(metadata.takenAt());
        put(metadata.panelHours());
        Integer minutes = metadata.minutesSincePowerOn();
        put(minutes == null ? null : minutes.doubleValue());
        put(metadata.ambientLux());
        flush();
    }

    private void put(@Nullable String text) {
        buffer.put(presence(text));
        if (text != null) {
            byte[] utf8 = text.getBytes(StandardCharsets.UTF_8);
            buffer.putInt(utf8.length);
            flush();
            sha256.update(utf8);
        }
    }

    private void put(@Nullable Instant time) {
        buffer.put(presence(time));
        if (time != null) {
            buffer.putLong(time.getEpochSecond()).putInt(time.getNano());
        }
    }

    private void put(@Nullable Double number) {
        buffer.put(presence(number));
        if (number != null) {
            buffer.putDouble(number);
        }
    }

    private void put(int size, int[] codes, double[] xyz) {
        buffer.putInt(size);
        flush();
        for (int i = 0; i < 3 * size; i += 3) {
            buffer.putInt(codes[i]).putInt(codes[i + 1]).putInt(codes[i + 2]);
            buffer.putDouble(xyz[i]).putDouble(xyz[i + 1]).putDouble(xyz[i + 2]);
            if (buffer.remaining() < READING_BYTES) {
                flush();
            }
        }
        flush();
    }

    private static byte presence(@Nullable Object value) {
        return (byte) (value == null ? 0 : 1);
    }

    private void flush() {
        sha256.update(buffer.array(), 0, buffer.position());
        buffer.clear();
    }
}
