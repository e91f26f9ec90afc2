package panelbook.app.runs;

import java.io.ByteArrayOutputStream;
import java.io.DataOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.wire.ReadingEntry;
import panelbook.wire.RunUpload;

/**
 * SHA-256 over what makes two uploads the same run: everything measured and said about it. The name of the file it came
 * in and the wish to make it a baseline do not count, since the same run may be sent again with others.
 */
final class RunDigest {

    private RunDigest() {}

    static byte[] of(RunUpload upload) {
        var head = new ByteArrayOutputStream();
        try {
            write(new DataOutputStream(head), upload);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        var digest = sha256();
        digest.update(head.toByteArray());
        digest.update(readings(upload.readings()).flip());
        return digest.digest();
    }

    private static ByteBuffer readings(List<ReadingEntry> readings) {
        var bytes = ByteBuffer.allocate(readings.size() * (3 * Integer.BYTES + 3 * Double.BYTES));
        for (var r : readings) {
            bytes.putInt(r.red()).putInt(r.green()).putInt(r.blue());
            bytes.putDouble(r.x()).putDouble(r.y()).putDouble(r.z());
        }
        return bytes;
    }

    private static void write(DataOutputStream out, RunUpload upload) throws IOException {
        text(out, upload.presetId());
        text(out, upload.instrumentId());
        text(out, upload.purpose());
        text(out, upload.operator());
        text(out, upload.takenAt());
        text(out, upload.panelHours());
        text(out, upload.minutesSincePowerOn());
        text(out, upload.ambientIlluminanceLux());
        text(out, upload.remarks());
    }

    private static void text(DataOutputStream out, @Nullable Object value) throws IOException {
        var bytes = value == null ? null : value.toString().getBytes(StandardCharsets.UTF_8);
        out.writeInt(bytes == null ? -1 : bytes.length);
        if (bytes != null) {
            out.write(bytes);
        }
    }

    private static MessageDigest sha256() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java platform has SHA-256", e);
        }
    }
}
