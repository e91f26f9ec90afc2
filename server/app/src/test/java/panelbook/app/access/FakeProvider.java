package panelbook.app.access;

import com.nimbusds.jose.JOSEException;
import com.nimbusds.jose.JWSAlgorithm;
import com.nimbusds.jose.JWSHeader;
import com.nimbusds.jose.crypto.RSASSASigner;
import com.nimbusds.jose.jwk.JWKSet;
import com.nimbusds.jose.jwk.RSAKey;
import com.nimbusds.jose.jwk.gen.RSAKeyGenerator;
import com.nimbusds.jwt.JWTClaimsSet;
import com.nimbusds.jwt.SignedJWT;
import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetSocketAddress;
import java.net.URI;
import java.net.URLDecoder;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.util.Arrays;
import java.util.Base64;
import java.util.Date;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.stream.Collectors;

/**
 * An OpenID Connect provider (OpenID Connect Core 1.0 and Discovery 1.0, PKCE by RFC 7636) that vouches for whom a test says, signed by a
 * library of its own; each token can be spoilt in one way.
 */
final class FakeProvider implements AutoCloseable {

    private final String issuer;
    private final HttpServer server;
    private final RSAKey key;
    private final RSAKey otherKey;
    private final Map<String, Map<String, String>> codes = new ConcurrentHashMap<>();

    /** What a test changes of the next token. */
    String subject = "person-1";

    List<String> groups = List.of();
    String audience = "panelbook-here";
    String nonceInstead = "";
    boolean wrongKey;
    boolean expired;

    FakeProvider(String issuer) throws IOException, JOSEException {
        this.issuer = issuer;
        key = new RSAKeyGenerator(2048).keyID("one").generate();
        otherKey = new RSAKeyGenerator(2048).keyID("one").generate();
        server = HttpServer.create(
                new InetSocketAddress("127.0.0.1", URI.create(issuer).getPort()), 0);
        server.createContext(
                "/.well-known/openid-configuration", exchange -> answer(exchange, 200, """
                {"issuer": "%1$s", "authorization_endpoint": "%1$s/authorize", "token_endpoint": "%1$s/token",
                 "jwks_uri": "%1$s/keys", "response_types_supported": ["code"], "subject_types_supported": ["public"],
                 "id_token_signing_alg_values_supported": ["RS256"]}""".formatted(issuer)));
        server.createContext("/keys", exchange -> answer(exchange, 200, new JWKSet(key.toPublicJWK()).toString()));
        server.createContext("/token", this::token);
        server.start();
    }

    /** Plays the person who says yes at the provider: where the browser is sent back to. */
    String approve(String authorizationAddress) {
        var asked = parameters(URI.create(authorizationAddress).getRawQuery());
        if (!authorizationAddress.startsWith(issuer + "/authorize?")
                || !asked.get("response_type").equals("code")
                || !"S256".equals(asked.get("code_challenge_method"))) {
            throw new AssertionError("not a request for a code with PKCE: " + authorizationAddress);
        }
        codes.put("code", asked);
        return asked.get("redirect_uri") + "?code=code&state="
                + asked.get("state").replace("=", "%3D");
    }

    private void token(HttpExchange exchange) throws IOException {
        var form = parameters(new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8));
        var asked = codes.remove(form.get("code"));
        var basic = Base64.getEncoder()
                .encodeToString("panelbook-here:a+secret+of+the+tests".getBytes(StandardCharsets.UTF_8));
        if (asked == null
                || !("Basic " + basic).equals(exchange.getRequestHeaders().getFirst("Authorization"))
                || !challenge(form.get("code_verifier")).equals(asked.get("code_challenge"))) {
            answer(exchange, 400, "{\"error\": \"invalid_grant\"}");
            return;
        }
        answer(
                exchange,
                200,
                "{\"access_token\": \"a\", \"token_type\": \"Bearer\", \"expires_in\": 60, \"id_token\": \""
                        + idToken(asked.get("nonce")) + "\"}");
    }

    private String idToken(String nonce) {
        // the library that checks it goes by the clock of the machine
        var now = Instant.now();
        var issued = expired ? now.minusSeconds(7200) : now;
        var claims = new JWTClaimsSet.Builder()
                .issuer(issuer)
                .subject(subject)
                .audience(audience)
                .issueTime(Date.from(issued))
                .expirationTime(Date.from(issued.plusSeconds(300)))
                .claim("nonce", nonceInstead.isEmpty() ? nonce : nonceInstead)
                .claim("name", "Person " + subject)
                .claim("house", Map.of("groups", groups))
                .build();
        try {
            var token = new SignedJWT(
                    new JWSHeader.Builder(JWSAlgorithm.RS256).keyID("one").build(), claims);
            token.sign(new RSASSASigner(wrongKey ? otherKey : key));
            return token.serialize();
        } catch (JOSEException e) {
            throw new AssertionError(e);
        }
    }

    private static String challenge(String verifier) {
        try {
            var hash = MessageDigest.getInstance("SHA-256").digest(verifier.getBytes(StandardCharsets.US_ASCII));
            return Base64.getUrlEncoder().withoutPadding().encodeToString(hash);
        } catch (NoSuchAlgorithmException e) {
            throw new AssertionError(e);
        }
    }

    private static Map<String, String> parameters(String text) {
        return Arrays.stream(text.split("&"))
                .map(pair -> pair.split("=", 2))
                .collect(Collectors.toMap(pair -> pair[0], pair -> URLDecoder.decode(pair[1], StandardCharsets.UTF_8)));
    }

    private static void answer(HttpExchange exchange, int status, String json) throws IOException {
        var bytes = json.getBytes(StandardCharsets.UTF_8);
        exchange.getResponseHeaders().set("Content-Type", "application/json");
        exchange.sendResponseHeaders(status, bytes.length);
        exchange.getResponseBody().write(bytes);
        exchange.close();
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
