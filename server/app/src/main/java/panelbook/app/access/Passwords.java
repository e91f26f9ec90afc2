package panelbook.app.access;

import java.text.Normalizer;
import java.util.Locale;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import java.util.function.Supplier;
import org.springframework.security.crypto.argon2.Argon2PasswordEncoder;
import org.springframework.stereotype.Component;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Refusal;

/**
 * Hashes and compares passwords: Argon2id (RFC 9106), 19 MiB of memory, two passes, one lane, 16 bytes of salt, 32 of hash. These are
 * the least that the OWASP Password Storage Cheat Sheet gives for it (from memory); a hash says its own parameters, so that they can grow.
 */
@Component
class Passwords {

    private static final int SHORTEST = 12;
    private static final int LONGEST = 1000;
    private static final int SALT_BYTES = 16;
    private static final int HASH_BYTES = 32;
    private static final int LANES = 1;
    private static final int KIBIBYTES = 19 * 1024;
    private static final int PASSES = 2;
    private static final int PATIENCE_SECONDS = 10;

    private final Argon2PasswordEncoder encoder =
            new Argon2PasswordEncoder(SALT_BYTES, HASH_BYTES, LANES, KIBIBYTES, PASSES);

    /** Hashing takes memory and a core: whoever sends a thousand sign-ins at once must not use up either. */
    private final Semaphore turns =
            new Semaphore(Math.max(2, Runtime.getRuntime().availableProcessors()), true);

    /** The hash of no password, for names that no account has: these must take as long as others. */
    private final String nobodys = encoder.encode(Secrets.next());

    /**
     * Notes what is wrong with a new password. Length alone is asked for, and no mix of characters; it does not hold the name
     * beside it (NIST SP 800-63B, section 5.1.1.2, from memory).
     */
    void check(Checks checks, String pointer, String password, String name) {
        var length = password.codePointCount(0, password.length());
        checks.that(
                length >= SHORTEST,
                pointer,
                "A password has at least " + SHORTEST
                        + " characters; several words that do not belong together are good.");
        checks.that(length <= LONGEST, pointer, "A password has at most " + LONGEST + " characters.");
        checks.that(
                name.isBlank() || !password.toLowerCase(Locale.ROOT).contains(name.toLowerCase(Locale.ROOT)),
                pointer,
                "A password must not hold the name to sign in.");
        checks.that(password.codePoints().distinct().count() > 1, pointer, "One character repeated is no password.");
    }

    /** What is kept of a password. */
    String hash(String password) {
        return inTurn(() -> String.valueOf(encoder.encode(composed(password))));
    }

    boolean matches(String password, String hash) {
        return inTurn(() -> encoder.matches(composed(password), hash));
    }

    /** As long as {@link #matches} takes, and always false. */
    boolean matchesNobody(String password) {
        matches(password, nobodys);
        return false;
    }

    /** Keyboards write the same letter in different ways (NFKC, as NIST SP 800-63B asks for; from memory). */
    private static String composed(String password) {
        // a much longer one is no password, and need not be read whole
        return Normalizer.normalize(
                password.substring(0, Math.min(password.length(), 2 * LONGEST)), Normalizer.Form.NFKC);
    }

    private <T> T inTurn(Supplier<T> work) {
        try {
            if (!turns.tryAcquire(PATIENCE_SECONDS, TimeUnit.SECONDS)) {
                throw Refusal.of(
                        Refusal.Kind.TOO_MANY, "Too many people are signing in at this moment: try again in a minute.");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw Refusal.of(Refusal.Kind.TOO_MANY, "The service is about to stop: try again in a minute.");
        }
        try {
            return work.get();
        } finally {
            turns.release();
        }
    }
}
