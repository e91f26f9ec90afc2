package panelbook.app.access;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.security.SecureRandom;
import java.util.Base64;

/**
 * Secrets of tokens and of calendars' addresses: 256 random bits behind a prefix that people and scanners of leaked secrets recognise.
 *
 * <p>Only their SHA-256 is kept. A slow, salted hash guards passwords, which can be guessed; nobody guesses 256 random
 * bits, whatever the hash costs, and this one is paid for by every request.
 */
public final class Secrets {

    static final String PREFIX = "panelbook_";
    private static final int BYTES = 32;
    private static final SecureRandom RANDOM = new SecureRandom();

    private Secrets() {}

    /** A new one, of characters that an address may hold. */
    public static String next() {
        var bytes = new byte[BYTES];
        RANDOM.nextBytes(bytes);
        return PREFIX + Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }

    /** SHA-256, 32 bytes. */
    public static byte[] hash(String secret) {
        try {
            return MessageDigest.getInstance("SHA-256").digest(secret.getBytes(StandardCharsets.UTF_8));
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("Every Java runtime has SHA-256", impossible);
        }
    }
}
