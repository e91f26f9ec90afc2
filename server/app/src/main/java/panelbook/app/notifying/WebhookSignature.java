package panelbook.app.notifying;

import java.nio.charset.StandardCharsets;
import java.security.GeneralSecurityException;
import java.time.Instant;
import java.util.Base64;
import javax.crypto.Mac;
import javax.crypto.spec.SecretKeySpec;

/**
 * The signature of a webhook as the open specification Standard Webhooks asks for it: HMAC-SHA256 over id, time and body,
 * joined by full stops. Source: Standard Webhooks specification 1.0, "Signature scheme" (from memory).
 */
final class WebhookSignature {

    /** What a secret begins with when it is shown. */
    static final String PREFIX = "whsec_";

    private WebhookSignature() {}

    /**
     * The value of the header {@code webhook-signature}.
     *
     * @param secret 24 to 64 bytes
     * @param id of the message, the same on every attempt
     * @param at time of the attempt; counts in whole seconds
     */
    static String of(byte[] secret, String id, Instant at, String body) {
        try {
            var mac = Mac.getInstance("HmacSHA256");
            mac.init(new SecretKeySpec(secret, "HmacSHA256"));
            var signed = id + "." + at.getEpochSecond() + "." + body;
            return "v1," + Base64.getEncoder().encodeToString(mac.doFinal(signed.getBytes(StandardCharsets.UTF_8)));
        } catch (GeneralSecurityException impossible) {
            throw new IllegalStateException("Every Java runtime has HmacSHA256", impossible);
        }
    }

    /** A secret as its receiver takes it. */
    static String shown(byte[] secret) {
        return PREFIX + Base64.getEncoder().encodeToString(secret);
    }
}
