package panelbook.app.access;

import java.util.UUID;
import org.springframework.http.HttpStatus;
import org.springframework.security.core.Authentication;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.ResponseStatus;
import org.springframework.web.bind.annotation.RestController;
import panelbook.app.rest.Paging;
import panelbook.wire.Identity;
import panelbook.wire.NewToken;
import panelbook.wire.Page;
import panelbook.wire.Token;
import panelbook.wire.TokenDraft;

/** Tokens, and who the bearer of one is. */
@RestController
@RequestMapping("/api/v1")
class AccessController {

    private final Tokens tokens;

    AccessController(Tokens tokens) {
        this.tokens = tokens;
    }

    /** Who am I? */
    @GetMapping("/identity")
    Identity identity(Authentication authentication) {
        var caller = Caller.current();
        var expiresAt = authentication.getDetails() instanceof Token token ? token.expiresAt() : null;
        return new Identity(caller.id(), caller.holder(), caller.role(), expiresAt);
    }

    /** Makes a token; its secret is in this answer and nowhere else. */
    @PostMapping("/tokens")
    @ResponseStatus(HttpStatus.CREATED)
    NewToken addToken(@RequestBody TokenDraft draft) {
        return tokens.add(draft);
    }

    /** All tokens, oldest first. */
    @GetMapping("/tokens")
    Page<Token> listTokens(Paging paging) {
        return tokens.page(paging);
    }

    /** From now on the token opens nothing. */
    @PostMapping("/tokens/{id}/revocation")
    Token revokeToken(@PathVariable UUID id) {
        return tokens.revoke(id);
    }
}
