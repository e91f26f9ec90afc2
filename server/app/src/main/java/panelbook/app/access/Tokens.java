package panelbook.app.access;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.database.Rows;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Words;
import panelbook.wire.NewToken;
import panelbook.wire.Page;
import panelbook.wire.Role;
import panelbook.wire.Token;
import panelbook.wire.TokenDraft;

/** All tokens, those that no longer hold included. */
@Component
class Tokens {

    private static final String SELECT =
            "select id, holder, role, created_at, created_by, expires_at, revoked_at, revoked_by from token ";

    /** Any constant: whoever makes or revokes engineer tokens takes turns. */
    private static final long ENGINEERS_LOCK = 0x70616e656c626f6fL;

    private final JdbcClient jdbc;
    private final Clock clock;

    Tokens(JdbcClient jdbc, Clock clock) {
        this.jdbc = jdbc;
        this.clock = clock;
    }

    /** Whoever holds {@code secret}; refuses a secret that is unknown, revoked or expired. One select by a unique index. */
    Token authenticate(String secret) {
        var token = jdbc.sql(SELECT + "where secret_hash = ?")
                .param(Secrets.hash(secret))
                .query(Tokens::row)
                .optional()
                .orElseThrow(() -> unauthenticated("This token is not known here."));
        if (token.revokedAt() != null) {
            throw unauthenticated("This token was revoked.");
        }
        if (expired(token)) {
            throw unauthenticated("This token has expired.");
        }
        return token;
    }

    /** The token of this id, when it opens the service now. */
    Optional<Token> holding(UUID id) {
        return find(id).filter(token -> token.revokedAt() == null && !expired(token));
    }

    private boolean expired(Token token) {
        return token.expiresAt() != null && !clock.instant().isBefore(token.expiresAt());
    }

    @Transactional
    NewToken add(TokenDraft draft) {
        var now = clock.instant();
        new Checks()
                .line("/holder", draft.holder(), 200)
                .that(
                        draft.expiresAt() == null || draft.expiresAt().isAfter(now),
                        "/expiresAt",
                        "Must lie in the future.")
                .refuse();
        if (find(draft.id()).isPresent()) {
            throw Refusal.conflict("The token " + draft.id()
                    + " was made already, and its secret is shown only once: revoke it and make another.");
        }
        return insert(draft, Caller.current().holder(), now);
    }

    /** The first engineer token, unless there is any token; several services may start at once. */
    @Transactional
    Optional<NewToken> addFirst() {
        lockEngineers();
        var none = jdbc.sql("select not exists (select from token)")
                .query(Boolean.class)
                .single();
        if (!none) {
            return Optional.empty();
        }
        return Optional.of(addEngineer("first engineer"));
    }

    /** An engineer token at the wish of whoever starts the service. */
    @Transactional
    NewToken addEngineer(String holder) {
        new Checks().line("panelbook.new-engineer", holder, 200).refuse();
        return insert(new TokenDraft(UUID.randomUUID(), holder, Role.ENGINEER, null), "service start", clock.instant());
    }

    @Transactional
    Token revoke(UUID id) {
        lockEngineers();
        var token = find(id).orElseThrow(() -> Refusal.notFound("token", id));
        if (token.revokedAt() != null) {
            return token;
        }
        if (token.role() == Role.ENGINEER && !anotherEngineer(id)) {
            throw Refusal.conflict(
                    "This is the last engineer token that holds: make another one first, or nobody can make tokens.");
        }
        jdbc.sql("update token set revoked_at = ?, revoked_by = ? where id = ?")
                .param(Rows.at(clock.instant()))
                .param(Caller.current().holder())
                .param(id)
                .update();
        return find(id).orElseThrow();
    }

    @Transactional(readOnly = true)
    Page<Token> page(Paging paging) {
        var rows = jdbc.sql(SELECT + """
                        where (cast(:id as uuid) is null or (created_at, id) > (cast(:at as timestamptz), :id))
                        order by created_at, id limit :fetch""")
                .param("at", paging.key(0))
                .param("id", paging.keyId(1))
                .param("fetch", paging.fetch())
                .query(Tokens::row)
                .list();
        return paging.page(
                rows, token -> List.of(token.createdAt().toString(), token.id().toString()));
    }

    private Optional<Token> find(UUID id) {
        return jdbc.sql(SELECT + "where id = ?").param(id).query(Tokens::row).optional();
    }

    private NewToken insert(TokenDraft draft, String by, Instant now) {
        var secret = Secrets.next();
        jdbc.sql("""
                        insert into token (id, holder, role, secret_hash, created_at, created_by, expires_at)
                        values (?, ?, ?, ?, ?, ?, ?)""")
                .param(draft.id())
                .param(draft.holder())
                .param(draft.role().toString())
                .param(Secrets.hash(secret))
                .param(Rows.at(now))
                .param(by)
                .param(Rows.atOrNull(draft.expiresAt()))
                .update();
        return new NewToken(find(draft.id()).orElseThrow(), secret);
    }

    private boolean anotherEngineer(UUID id) {
        return jdbc.sql("""
                        select exists (select from token where role = 'engineer' and id <> ? and revoked_at is null
                        and (expires_at is null or expires_at > ?))""")
                .param(id)
                .param(Rows.at(clock.instant()))
                .query(Boolean.class)
                .single();
    }

    private void lockEngineers() {
        jdbc.sql("select pg_advisory_xact_lock(?)")
                .param(ENGINEERS_LOCK)
                .query((rs, n) -> 1)
                .single();
    }

    private static Refusal unauthenticated(String detail) {
        return Refusal.of(Refusal.Kind.UNAUTHENTICATED, detail + " An engineer of your facility makes tokens.");
    }

    private static Token row(ResultSet rs, int n) throws SQLException {
        return new Token(
                rs.getObject("id", UUID.class),
                rs.getString("holder"),
                Words.of(Role.class, rs.getString("role")),
                Rows.instant(rs, "created_at"),
                rs.getString("created_by"),
                Rows.instantOrNull(rs, "expires_at"),
                Rows.instantOrNull(rs, "revoked_at"),
                rs.getString("revoked_by"));
    }
}
