package panelbook.app.access;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Adds;
import panelbook.app.rest.Paging;
import panelbook.wire.Account;
import panelbook.wire.AccountDraft;
import panelbook.wire.Page;
import panelbook.wire.PasswordDraft;

/** Accounts of people who sign in to the board with a password. */
@RestController
@RequestMapping("/api/v1/accounts")
class AccountController {

    private final Accounts accounts;

    AccountController(Accounts accounts) {
        this.accounts = accounts;
    }

    /** Makes an account; its holder can sign in at once. */
    @PostMapping
    @Adds
    ResponseEntity<Account> addAccount(@RequestBody AccountDraft draft) {
        return accounts.add(draft).at("/api/v1/accounts/" + draft.id());
    }

    /** Accounts, oldest first, retired ones included; {@code name} as it is typed to sign in. */
    @GetMapping
    Page<Account> listAccounts(@RequestParam(required = false) @Nullable String name, Paging paging) {
        return accounts.page(name, paging);
    }

    /** One account. */
    @GetMapping("/{id}")
    Account getAccount(@PathVariable UUID id) {
        return accounts.get(id);
    }

    /** Sets a password, e.g. in place of a forgotten one; all sessions of the account end. */
    @PostMapping("/{id}/password")
    Account setAccountPassword(@PathVariable UUID id, @RequestBody PasswordDraft draft) {
        return accounts.setPassword(id, draft.password());
    }

    /** From now on nobody signs in with it; all its sessions end. */
    @PostMapping("/{id}/retirement")
    Account retireAccount(@PathVariable UUID id) {
        return accounts.retire(id);
    }
}
