package panelbook.wire.files;

import java.nio.ByteBuffer;
import java.security.MessageDigest;
import java.util.UUID;

/**
 * Ids of runs, made from their content, so that a file that is uploaded again is the same run again.
 *
 * <p>The metadata are part of the content. Whoever adds to what the file says (a preset named on the command line) does so
 * by {@link RunFile#withMetadata} before asking for the id: the same readings for another preset are another run.
 */
public final class RunIds {

    /** The name space of run ids; a random UUID, drawn once. */
    private static final UUID NAMESPACE = new UUID(0xd67a86df642d40fbL, 0x8bae9bd1be951f85L);

    private RunIds() {}

    /** The id of a run: a name-based UUID whose name is the SHA-256 of the canonical content. */
    public static UUID of(RunFile run) {
        return nameBased(NAMESPACE, run.digestBytes());
    }

    /**
     * A name-based UUID of version 5 (SHA-1). Source: RFC 9562 (2024), section 5.5.
     *
     * @param namespace name space
     * @param name bytes of the name
     */
    public static UUID nameBased(UUID namespace, byte[] name) {
        MessageDigest sha1 = CanonicalContent.digest("SHA-1");
        sha1.update(ByteBuffer.allocate(16)
                .putLong(namespace.getMostSignificantBits())
                .putLong(namespace.getLeastSignificantBits())
                .array());
        ByteBuffer hash = ByteBuffer.wrap(sha1.digest(name));
        long high = (hash.getLong() & 0xFFFFFFFFFFFF0FFFL) | 0x5000L; // version
        long low = (hash.getLong() & 0x3FFFFFFFFFFFFFFFL) | 0x8000000000000000L; // variant
        return new UUID(high, low);
    }
}
