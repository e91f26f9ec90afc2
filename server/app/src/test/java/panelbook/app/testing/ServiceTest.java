package panelbook.app.testing;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.EnumMap;
import java.util.Map;
import java.util.UUID;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.annotation.Qualifier;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.context.TestConfiguration;
import org.springframework.boot.test.web.server.LocalServerPort;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Import;
import org.springframework.test.context.DynamicPropertyRegistry;
import org.springframework.test.context.DynamicPropertySource;
import panelbook.app.PanelbookApplication;
import panelbook.db.testing.TestDatabase;
import panelbook.wire.NewToken;
import panelbook.wire.Role;
import panelbook.wire.TokenDraft;
import tools.jackson.databind.json.JsonMapper;

/**
 * A test of the whole service through its HTTP door. All such tests share one service and one database, so each makes
 * the things it needs under names of its own ({@link #unique}), and none relies on an empty book.
 */
@SpringBootTest(
        classes = PanelbookApplication.class,
        webEnvironment = SpringBootTest.WebEnvironment.RANDOM_PORT,
        properties = {
            "spring.jpa.hibernate.ddl-auto=validate",
            // as behind a proxy: so that each browser of a test has an address of its own
            "server.forward-headers-strategy=native",
            "panelbook.sweep.first=P1D",
            "panelbook.notify.first=P1D",
            "panelbook.notify.attempt-timeout=1s",
            "panelbook.bookings.first=P1D",
            "panelbook.sign-in.oidc.client-id=panelbook-here",
            "panelbook.sign-in.oidc.client-secret=a secret of the tests",
            "panelbook.sign-in.oidc.role-claim=house.groups",
            "panelbook.sign-in.oidc.engineers=screens",
            "panelbook.sign-in.oidc.managers=front-desk,office"
        })
@Import(ServiceTest.Kit.class)
public abstract class ServiceTest {

    /** Where the shared clock starts. */
    public static final Instant START = Instant.parse("2026-03-02T08:00:00Z");

    /** The one database. */
    protected static final TestDatabase DATABASE = TestDatabase.empty();

    /** Where the OpenID Connect provider of the house is, in tests that start one. */
    protected static final String PROVIDER = "http://127.0.0.1:" + Instance.freePort();

    private static final Path FIRST_TOKEN = firstTokenFile();
    private static final Map<Role, String> TOKENS = new EnumMap<>(Role.class);

    @LocalServerPort
    private int port;

    @Autowired
    private JsonMapper json;

    /** The service's clock. */
    @Autowired
    protected SettableClock clock;

    @DynamicPropertySource
    static void properties(DynamicPropertyRegistry registry) {
        registry.add("spring.datasource.url", DATABASE::jdbcUrl);
        registry.add("spring.datasource.username", DATABASE::username);
        registry.add("spring.datasource.password", DATABASE::password);
        registry.add("panelbook.first-token-file", FIRST_TOKEN::toString);
        // nobody is there until a test needs it: the service has to do without
        registry.add("panelbook.sign-in.oidc.issuer", () -> PROVIDER);
    }

    /** The service as seen by the holder of a token with {@code role}; one token per role for all tests. */
    protected Http as(Role role) {
        synchronized (TOKENS) {
            TOKENS.computeIfAbsent(Role.ENGINEER, first -> firstToken());
            if (!TOKENS.containsKey(role)) {
                TOKENS.put(role, newToken(role, role + " of the tests").secret());
            }
            return nobody().with(TOKENS.get(role));
        }
    }

    /** The service as seen by an engineer. */
    protected Http engineer() {
        return as(Role.ENGINEER);
    }

    /** The service as seen without a token. */
    protected Http nobody() {
        return new Http(address(), null, json);
    }

    /** Where the service is. */
    protected URI address() {
        return URI.create("http://127.0.0.1:" + port);
    }

    /** The service as a browser sees it that nobody used yet. */
    protected Browser browser() {
        return new Browser(URI.create("http://127.0.0.1:" + port));
    }

    /** A token of its own, e.g. one to revoke. */
    protected NewToken newToken(Role role, String holder) {
        return engineer()
                .post("/tokens", new TokenDraft(UUID.randomUUID(), holder, role, null))
                .expect(201)
                .as(NewToken.class);
    }

    /** A name that no other test uses. */
    protected static String unique(String name) {
        return name + " " + UUID.randomUUID().toString().substring(0, 8);
    }

    /** Where the service wrote its first token. */
    protected static Path firstTokenPath() {
        return FIRST_TOKEN;
    }

    private static String firstToken() {
        try {
            return Files.readString(FIRST_TOKEN).strip();
        } catch (IOException missing) {
            throw new UncheckedIOException("The service wrote no first token", missing);
        }
    }

    private static Path firstTokenFile() {
        try {
            var folder = Files.createTempDirectory("panelbook-test");
            folder.toFile().deleteOnExit();
            return folder.resolve("first-token");
        } catch (IOException failed) {
            throw new UncheckedIOException(failed);
        }
    }

    /** What differs from the running service. */
    @TestConfiguration(proxyBeanMethods = false)
    static class Kit {

        @Bean
        @Qualifier("wall")
        SettableClock settableClock() {
            return new SettableClock(START);
        }
    }
}
