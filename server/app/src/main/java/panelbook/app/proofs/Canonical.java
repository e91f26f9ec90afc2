package panelbook.app.proofs;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;
import org.erdtman.jcs.JsonCanonicalizer;
import org.springframework.stereotype.Component;
import panelbook.wire.ProofContent;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/**
 * The one way in which the content of a proof is written, so that its digest can be worked out again: the JSON of the contract with every
 * number that is no whole one rounded to six significant digits, half to even, in the canonical form of RFC 8785 (names in the order of
 * their UTF-16 units, no blanks, numbers as ECMAScript writes them), in UTF-8. Rounding keeps the last digits of another processor's
 * arithmetic out of it.
 */
@Component
class Canonical {

    private static final MathContext SIX_DIGITS = new MathContext(6, RoundingMode.HALF_EVEN);

    private final JsonMapper json;

    Canonical(JsonMapper json) {
        this.json = json;
    }

    String text(ProofContent content) {
        try {
            return new JsonCanonicalizer(json.writeValueAsString(rounded(json.valueToTree(content))))
                    .getEncodedString();
        } catch (IOException impossible) {
            throw new UncheckedIOException("JSON just written cannot be read", impossible);
        }
    }

    ProofContent content(String text) {
        return json.readValue(text, ProofContent.class);
    }

    /** What is the same, and where the first of what differs stands, as a JSON pointer. */
    String firstDifference(String one, String other) {
        return difference("", json.readTree(one), json.readTree(other));
    }

    private static String difference(String at, JsonNode one, JsonNode other) {
        if (one.isObject() && other.isObject()) {
            for (var name : one.propertyNames()) {
                if (!one.path(name).equals(other.path(name))) {
                    return difference(at + "/" + name, one.path(name), other.path(name));
                }
            }
        }
        if (one.isArray() && other.isArray() && one.size() == other.size()) {
            for (var i = 0; i < one.size(); i++) {
                if (!one.get(i).equals(other.get(i))) {
                    return difference(at + "/" + i, one.get(i), other.get(i));
                }
            }
        }
        return at;
    }

    private JsonNode rounded(JsonNode node) {
        if (node instanceof ObjectNode object) {
            object.propertyNames().forEach(name -> object.set(name, rounded(object.get(name))));
        } else if (node instanceof ArrayNode array) {
            for (var i = 0; i < array.size(); i++) {
                array.set(i, rounded(array.get(i)));
            }
        } else if (node.isFloatingPointNumber()) {
            return json.getNodeFactory().numberNode(rounded(node.asDouble()));
        }
        return node;
    }

    private static double rounded(double number) {
        return new BigDecimal(Double.toString(number)).round(SIX_DIGITS).doubleValue();
    }

    /** SHA-256 (FIPS 180-4) as 64 hexadecimal digits. */
    static String digest(byte[] bytes) {
        try {
            return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(bytes));
        } catch (NoSuchAlgorithmException impossible) {
            throw new IllegalStateException("Every Java platform has SHA-256", impossible);
        }
    }

    static String digest(String text) {
        return digest(text.getBytes(StandardCharsets.UTF_8));
    }
}
