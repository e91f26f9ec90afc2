package panelbook.app.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import panelbook.app.testing.ServiceTest;
import panelbook.wire.AuditEntry;
import panelbook.wire.Identity;
import panelbook.wire.NewToken;
import panelbook.wire.Role;
import panelbook.wire.Token;
import panelbook.wire.TokenDraft;

class TokensTest extends ServiceTest {

    @Autowired
    private JdbcClient jdbc;

    @Autowired
    private FirstToken firstToken;

    @Test
    void aTokenOpensTheServiceForItsHolderInItsRole() {
        var made = newToken(Role.CALIBRATOR, "Calibrator A");

        var identity = nobody().with(made.secret()).get("/identity").expect(200).as(Identity.class);

        assertThat(identity).isEqualTo(new Identity(made.token().id(), "Calibrator A", Role.CALIBRATOR, null));
    }

    @Test
    void aRevokedTokenStopsWorkingAtOnceAndTheLogKnowsWhoDidIt() {
        var made = newToken(Role.PROBE, "Probe of room 3");
        var probe = nobody().with(made.secret());
        probe.get("/identity").expect(200);

        var revoked = engineer()
                .post("/tokens/" + made.token().id() + "/revocation")
                .expect(200)
                .as(Token.class);

        assertThat(revoked.revokedAt()).isEqualTo(clock.instant());
        var problem = probe.get("/identity").expect(401).problem();
        assertThat(problem.detail()).contains("was revoked");
        assertThat(engineer()
                        .post("/tokens/" + made.token().id() + "/revocation")
                        .as(Token.class))
                .as("a second revocation changes nothing")
                .isEqualTo(revoked);
        var entries = engineer()
                .all(
                        "/audit-entries?subject-kind=token&subject-id="
                                + made.token().id(),
                        AuditEntry.class);
        assertThat(entries).extracting(AuditEntry::action).containsExactly("change", "add");
        assertThat(entries).allSatisfy(entry -> assertThat(entry.actor()).startsWith("first engineer ("));
        assertThat(entries.toString()).as("no secret in the log").doesNotContain("secret_hash");
    }

    @Test
    void anExpiredTokenIsRefusedFromTheVeryMoment() {
        var draft = new TokenDraft(
                UUID.randomUUID(), "Visitor", Role.MANAGER, clock.instant().plus(Duration.ofMinutes(5)));
        var made = engineer().post("/tokens", draft).expect(201).as(NewToken.class);
        var visitor = nobody().with(made.secret());

        clock.advance(Duration.ofSeconds(299));
        visitor.get("/identity").expect(200);
        clock.advance(Duration.ofSeconds(1));

        assertThat(visitor.get("/identity").expect(401).problem().detail()).contains("has expired");
    }

    @Test
    void aTokenWithAnExpiryInThePastOrWithoutHolderIsRefusedWithBothPlaces() {
        var draft = new TokenDraft(UUID.randomUUID(), "  ", Role.MANAGER, clock.instant());

        var problem = engineer().post("/tokens", draft).expect(400).problem();

        assertThat(problem.errors()).extracting("pointer").containsExactly("/holder", "/expiresAt");
    }

    @Test
    void theSecretIsShownOnceAndKeptAsAHashOnly() {
        var draft = new TokenDraft(UUID.randomUUID(), "Probe B", Role.PROBE, null);
        var made = engineer().post("/tokens", draft).expect(201).as(NewToken.class);

        assertThat(made.secret()).startsWith("panelbook_").hasSize("panelbook_".length() + 43);
        assertThat(engineer().post("/tokens", draft).expect(409).problem().detail())
                .contains("shown only once");
        assertThat(engineer().get("/tokens?limit=500").text())
                .contains(draft.id().toString())
                .doesNotContain(made.secret());
        var kept = jdbc.sql("select token::text from token where id = ?")
                .param(draft.id())
                .query(String.class)
                .single();
        assertThat(kept).doesNotContain(made.secret());
    }

    @Test
    void theFirstTokenIsWrittenForItsOwnerOnlyAndNeverAgain() throws IOException {
        var before = Files.readString(firstTokenPath());

        firstToken.run(new org.springframework.boot.DefaultApplicationArguments());

        assertThat(Files.readString(firstTokenPath())).isEqualTo(before);
        assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(firstTokenPath())))
                .isEqualTo("rw-------");
    }

    @Test
    void theLastEngineerCannotLockEverybodyOut() {
        var holding = engineer().all("/tokens", Token.class).stream()
                .filter(token -> token.role() == Role.ENGINEER && token.revokedAt() == null)
                .toList();
        assertThat(holding)
                .as("this test needs the first engineer's token to be the only one")
                .hasSize(1);

        var problem = engineer()
                .post("/tokens/" + holding.get(0).id() + "/revocation")
                .expect(409)
                .problem();

        assertThat(problem.detail()).contains("last engineer token");
        engineer().get("/identity").expect(200);
    }

    @Test
    void withoutATokenOrWithAnUnknownOneNothingOpens() {
        var missing = nobody().get("/facilities").expect(401);
        assertThat(missing.problem().detail()).contains("Authorization: Bearer");
        assertThat(missing.header("WWW-Authenticate")).startsWith("Bearer");

        var unknown = nobody().with("panelbook_guess").get("/identity").expect(401);
        assertThat(unknown.problem().detail()).contains("not known");
    }

    @Test
    void aRoleThatDoesNotCoverTheRequestIsToldSo() {
        var problem = as(Role.MANAGER).get("/tokens").expect(403).problem();

        assertThat(problem.type()).isEqualTo("/problems/forbidden");
        assertThat(problem.detail()).contains("manager").contains("GET /api/v1/tokens");
    }
}
