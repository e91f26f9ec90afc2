package panelbook.app.access;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Duration;
import java.util.Optional;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;
import panelbook.app.access.SignInWaits.Tried;
import panelbook.app.access.SignedIn.Way;
import panelbook.app.database.Rows;
import panelbook.app.rest.Refusal;
import panelbook.wire.Account;
import panelbook.wire.Role;

/** Lets people in, or not; each time it is written down who, when and from where. */
@Component
class SignIns {

    /** An address from which somebody came in within this time is theirs: strangers' failures don't count there. */
    private static final Duration FAMILIAR = Duration.ofDays(30);

    private static final String NOT_RIGHT =
            "Name and password do not belong together. Look whether capitals are locked; an engineer of your facility sets a new password.";
    private static final String NO_PAGES = "A probe's token opens no pages: they are for people.";

    private final JdbcClient jdbc;
    private final Clock clock;
    private final Accounts accounts;
    private final Tokens tokens;
    private final Passwords passwords;
    private final SignInWaits waits;
    private final TransactionTemplate transactions;

    SignIns(
            JdbcClient jdbc,
            Clock clock,
            Accounts accounts,
            Tokens tokens,
            Passwords passwords,
            SignInWaits waits,
            TransactionTemplate transactions) {
        this.jdbc = jdbc;
        this.clock = clock;
        this.accounts = accounts;
        this.tokens = tokens;
        this.passwords = passwords;
        this.waits = waits;
        this.transactions = transactions;
    }

    /** What came of trying. */
    sealed interface Outcome {}

    /** Come in. */
    record In(SignedIn signedIn) implements Outcome {}

    /** Not with this, and why; it never says whether there is such a name. */
    record Refused(String why) implements Outcome {}

    /** Not now: the try was not looked at. */
    record Wait(Duration left) implements Outcome {}

    Outcome withPassword(String name, String password, String address) {
        var kept = accounts.named(name);
        var id = kept.map(found -> found.account().id());
        var tried = Tried.name(
                name, address, id.filter(known -> familiar(known, address)).isPresent());
        var wait = waits.begin(tried);
        if (wait.isPresent()) {
            return new Wait(wait.get());
        }
        var right = kept.map(found -> passwords.matches(password, found.hash()))
                .orElseGet(() -> passwords.matchesNobody(password));
        if (kept.isEmpty() || !right) {
            var holder = kept.map(found -> found.account().holder()).orElse(null);
            note(false, Way.PASSWORD, id.orElse(null), holder, address);
            return new Refused(NOT_RIGHT);
        }
        waits.succeeded(tried);
        return in(kept.get().account(), address);
    }

    Outcome withToken(String secret, String address) {
        var tried = Tried.token(address);
        var wait = waits.begin(tried);
        if (wait.isPresent()) {
            return new Wait(wait.get());
        }
        try {
            var token = tokens.authenticate(secret);
            waits.succeeded(tried);
            if (token.role() == Role.PROBE) {
                note(false, Way.TOKEN, token.id(), token.holder(), address);
                return new Refused(NO_PAGES);
            }
            return in(
                    new SignedIn(Way.TOKEN, token.id(), token.holder(), token.role(), clock.instant(), null), address);
        } catch (Refusal refusal) {
            note(false, Way.TOKEN, null, null, address);
            return new Refused(String.valueOf(refusal.getMessage()));
        }
    }

    /** Somebody changes their own password, and is in with the new one; {@code old} is asked for since a page may have been left open. */
    Outcome changeOwn(UUID account, String old, String password, String address) {
        var kept = accounts.find(account).orElseThrow(() -> Refusal.notFound("account", account));
        var tried = Tried.name(kept.account().name(), address, familiar(account, address));
        var wait = waits.begin(tried);
        if (wait.isPresent()) {
            return new Wait(wait.get());
        }
        if (!passwords.matches(old, kept.hash())) {
            note(false, Way.PASSWORD, account, kept.account().holder(), address);
            return new Refused("The old password is not right.");
        }
        waits.succeeded(tried);
        try {
            return in(accounts.setPassword(account, password), address);
        } catch (Refusal refusal) {
            var errors = refusal.errors();
            return new Refused(
                    errors.isEmpty()
                            ? String.valueOf(refusal.getMessage())
                            : errors.get(0).detail());
        }
    }

    /** Somebody whom the house's provider vouches for; {@code subject} is what the provider calls them, unlike anybody else. */
    SignedIn withProvider(String subject, String holder, Role role, String address) {
        var id = UUID.nameUUIDFromBytes(subject.getBytes(StandardCharsets.UTF_8));
        var signedIn = new SignedIn(Way.PROVIDER, id, holder, role, clock.instant(), null);
        in(signedIn, address);
        return signedIn;
    }

    /** The provider vouched for somebody who has no role here, or for nobody. */
    void refusedWithProvider(@Nullable String holder, String address) {
        note(false, Way.PROVIDER, null, holder, address);
    }

    /**
     * Who this is now: with the role that account or token has at this moment, or nobody when account, password or token no longer
     * hold. One select by a primary key.
     */
    Optional<Caller> stillIn(SignedIn signedIn) {
        return switch (signedIn.way()) {
            case PROVIDER -> Optional.of(signedIn.caller());
            case TOKEN ->
                tokens.holding(signedIn.id()).map(token -> new Caller(token.id(), token.holder(), token.role()));
            case PASSWORD ->
                accounts.find(signedIn.id())
                        .map(Accounts.Kept::account)
                        .filter(account -> account.retiredAt() == null
                                && account.passwordSetAt().equals(signedIn.passwordSetAt()))
                        .map(account -> new Caller(account.id(), account.holder(), account.role()));
        };
    }

    private In in(Account account, String address) {
        return in(
                new SignedIn(
                        Way.PASSWORD,
                        account.id(),
                        account.holder(),
                        account.role(),
                        clock.instant(),
                        account.passwordSetAt()),
                address);
    }

    private In in(SignedIn signedIn, String address) {
        note(true, signedIn.way(), signedIn.id(), signedIn.holder(), address);
        return new In(signedIn);
    }

    private boolean familiar(UUID account, String address) {
        return jdbc.sql("""
                        select exists (select from sign_in
                                       where account_id = ? and address = ? and outcome = 'in' and at > ?)""")
                .param(account)
                .param(address)
                .param(Rows.at(clock.instant().minus(FAMILIAR)))
                .query(Boolean.class)
                .single();
    }

    private void note(boolean in, Way way, @Nullable UUID id, @Nullable String holder, String address) {
        transactions.executeWithoutResult(status -> jdbc.sql("""
                        insert into sign_in (at, outcome, way, account_id, token_id, holder, address)
                        values (:at, :outcome, :way, :account, :token, :holder, :address)""")
                .param("at", Rows.at(clock.instant()))
                .param("outcome", in ? "in" : "refused")
                .param("way", way.toString())
                .param("account", way == Way.PASSWORD ? id : null)
                .param("token", way == Way.TOKEN ? id : null)
                .param("holder", holder)
                .param("address", address)
                .update());
    }
}
