package panelbook.app.access;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.database.Rows;
import panelbook.app.rest.Added;
import panelbook.app.rest.Checks;
import panelbook.app.rest.Paging;
import panelbook.app.rest.Refusal;
import panelbook.app.rest.Repeats;
import panelbook.app.rest.Words;
import panelbook.wire.Account;
import panelbook.wire.AccountDraft;
import panelbook.wire.Page;
import panelbook.wire.Role;

/**
 * The accounts of people who sign in with a password, retired ones included. None is needed to begin with: an engineer's token signs in
 * as well. Passwords are hashed outside of transactions, since that takes its time.
 */
@Component
class Accounts {

    private static final String SELECT =
            "select id, name, holder, role, secret_hash, created_at, created_by, password_set_at, password_set_by, retired_at, retired_by"
                    + " from account ";

    private final JdbcClient jdbc;
    private final Clock clock;
    private final Passwords passwords;
    private final TransactionTemplate transactions;

    Accounts(JdbcClient jdbc, Clock clock, Passwords passwords, TransactionTemplate transactions) {
        this.jdbc = jdbc;
        this.clock = clock;
        this.passwords = passwords;
        this.transactions = transactions;
    }

    /** An account and what is kept of its password. */
    record Kept(Account account, String hash) {}

    Added<Account> add(AccountDraft draft) {
        var checks = new Checks()
                .line("/name", draft.name(), 100)
                .line("/holder", draft.holder(), 200)
                .that(draft.role() != Role.PROBE, "/role", "A probe has a token, and nobody to type a password.");
        passwords.check(checks, "/password", draft.password(), draft.name());
        checks.refuse();
        var there = find(draft.id());
        if (there.isPresent()) {
            Repeats.mustBeSame(same(there.get(), draft), "account", draft.id());
            return new Added<>(there.get().account(), false);
        }
        var hash = passwords.hash(draft.password());
        var by = Caller.current().holder();
        return transactions.execute(status -> {
            var now = Rows.at(clock.instant());
            jdbc.sql("""
                            insert into account (id, name, holder, role, secret_hash, created_at, created_by,
                                                 password_set_at, password_set_by)
                            values (:id, :name, :holder, :role, :hash, :now, :by, :now, :by)""")
                    .param("id", draft.id())
                    .param("name", draft.name())
                    .param("holder", draft.holder())
                    .param("role", draft.role().toString())
                    .param("hash", hash)
                    .param("now", now)
                    .param("by", by)
                    .update();
            return new Added<>(get(draft.id()), true);
        });
    }

    Page<Account> page(@Nullable String name, Paging paging) {
        var rows = jdbc.sql(SELECT + """
                        where (cast(:name as text) is null or lower(name) = lower(:name))
                        and (cast(:id as uuid) is null or (created_at, id) > (cast(:at as timestamptz), :id))
                        order by created_at, id limit :fetch""")
                .param("name", name)
                .param("at", paging.key(0))
                .param("id", paging.keyId(1))
                .param("fetch", paging.fetch())
                .query((row, n) -> row(row).account())
                .list();
        return paging.page(
                rows,
                account -> List.of(account.createdAt().toString(), account.id().toString()));
    }

    /** An engineer sets a password, e.g. a forgotten one; whoever is signed in with the old one no longer is. */
    Account setPassword(UUID id, String password) {
        var account = holding(id);
        var checks = new Checks();
        passwords.check(checks, "/password", password, account.account().name());
        checks.refuse();
        return keep(account, password);
    }

    Account retire(UUID id) {
        var account = get(id);
        if (account.retiredAt() != null) {
            return account;
        }
        return transactions.execute(status -> {
            jdbc.sql("update account set retired_at = ?, retired_by = ? where id = ? and retired_at is null")
                    .param(Rows.at(clock.instant()))
                    .param(Caller.current().holder())
                    .param(id)
                    .update();
            return get(id);
        });
    }

    Account get(UUID id) {
        return find(id).orElseThrow(() -> Refusal.notFound("account", id)).account();
    }

    /** The account that signs in by a name, in any case. */
    Optional<Kept> named(String name) {
        return jdbc.sql(SELECT + "where lower(name) = lower(?) and retired_at is null")
                .param(name)
                .query((row, n) -> row(row))
                .optional();
    }

    Optional<Kept> find(UUID id) {
        return jdbc.sql(SELECT + "where id = ?")
                .param(id)
                .query((row, n) -> row(row))
                .optional();
    }

    private Kept holding(UUID id) {
        var kept = find(id).orElseThrow(() -> Refusal.notFound("account", id));
        if (kept.account().retiredAt() != null) {
            throw Refusal.conflict("This account is retired: add a new one.");
        }
        return kept;
    }

    private Account keep(Kept account, String password) {
        var hash = passwords.hash(password);
        var id = account.account().id();
        return transactions.execute(status -> {
            // whoever read the old password a moment ago must not overwrite what was set since
            var kept = jdbc.sql("""
                            update account set secret_hash = :hash, password_set_at = :now, password_set_by = :by
                            where id = :id and secret_hash = :was and retired_at is null""")
                    .param("hash", hash)
                    .param("now", Rows.at(clock.instant()))
                    .param("by", Caller.current().holder())
                    .param("id", id)
                    .param("was", account.hash())
                    .update();
            if (kept == 0) {
                throw Refusal.conflict("The account was changed at the same moment: try again.");
            }
            return get(id);
        });
    }

    private boolean same(Kept there, AccountDraft draft) {
        var account = there.account();
        return account.name().equals(draft.name())
                && account.holder().equals(draft.holder())
                && account.role() == draft.role()
                && passwords.matches(draft.password(), there.hash());
    }

    private static Kept row(ResultSet rs) throws SQLException {
        var account = new Account(
                rs.getObject("id", UUID.class),
                rs.getString("name"),
                rs.getString("holder"),
                Words.of(Role.class, rs.getString("role")),
                Rows.instant(rs, "created_at"),
                rs.getString("created_by"),
                Rows.instant(rs, "password_set_at"),
                rs.getString("password_set_by"),
                Rows.instantOrNull(rs, "retired_at"),
                rs.getString("retired_by"));
        return new Kept(account, rs.getString("secret_hash"));
    }
}
