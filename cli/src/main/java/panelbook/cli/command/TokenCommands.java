package panelbook.cli.command;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.wire.AuditEntry;
import panelbook.wire.NewToken;
import panelbook.wire.Role;
import panelbook.wire.Token;
import panelbook.wire.TokenDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on tokens and the audit log. */
final class TokenCommands {

    private TokenCommands() {}

    @Command(
            footer = {
                "  panelbook token add --holder probe-3 --role probe --expires 2027-01-31 --file probe-3.token",
                "  panelbook token add --holder Mara --role calibrator > mara.token"
            },
            description = {
                "",
                "One token per person or probe. Its secret is shown this once: on standard output, or written to a file that "
                        + "only you may read. An engineer may do everything; a calibrator uploads, signs off and handles alerts; a "
                        + "manager reads; a probe uploads."
            })
    static final class Add extends Action {
        @Option(names = "--holder", required = true, paramLabel = "NAME", description = "Person or probe.")
        String holder = "";

        @Option(
                names = "--role",
                required = true,
                paramLabel = "ROLE",
                description = "engineer, calibrator, manager or probe.")
        String role = "";

        @Option(names = "--expires", paramLabel = "TIME", description = "Last day, or a time (default: never).")
        @Nullable
        String expires;

        @Option(
                names = "--file",
                paramLabel = "FILE",
                description = "Write the secret here instead of standard output.")
        @Nullable
        String file;

        @Override
        int work() {
            printer().checkFields(NewToken.class);
            var draft = new TokenDraft(
                    UUID.randomUUID(),
                    holder,
                    Words.one(Role.class, "--role", role),
                    expires == null ? null : Words.timeOrEndOfDay("--expires", expires));
            var made = service().post(NewToken.class, "/tokens", draft).value();
            new SecretHanding(at(), printer()).hand(NewToken.class, made, made.secret(), file);
            printer()
                    .say("Made a token for " + holder + ", " + role + ", "
                            + (made.token().expiresAt() == null
                                    ? "without end"
                                    : "until " + made.token().expiresAt())
                            + ". Its secret is not shown again. Next: panelbook log-in "
                            + service().address() + " --token-file FILE");
            return 0;
        }
    }

    @Command(footer = "  panelbook token list")
    static final class ListAll extends Listing<Token> {
        @Override
        View<Token> view() {
            return Views.tokens();
        }

        @Override
        String path() {
            return "/tokens";
        }

        @Override
        String none() {
            return "There is no token.";
        }
    }

    @Command(footer = "  panelbook token revoke 2b6f0d0e-0000-4000-8000-91c2b3a4d5e6")
    static final class Revoke extends Action {
        @Parameters(paramLabel = "TOKEN", description = "Id of the token; panelbook token list shows them.")
        String token = "";

        @Override
        int work() {
            var id = Names.id("a token", token);
            var revoked = service()
                    .post(Token.class, "/tokens/" + id + "/revocation", java.util.Map.of())
                    .value();
            return changed(
                    Views.tokens(), revoked, "Revoked the token of " + revoked.holder() + "; it no longer works", "");
        }
    }

    @Command(
            footer = {
                "  panelbook audit list --actor Mara",
                "  panelbook audit list --subject-kind preset --json=at,actor,before,after"
            })
    static final class Audit extends Listing<AuditEntry> {
        @Option(
                names = "--subject-kind",
                paramLabel = "KIND",
                description = "Only changes of this kind of thing, such as preset.")
        @Nullable
        String kind;

        @Option(names = "--subject-id", paramLabel = "ID", description = "Only changes of this thing.")
        @Nullable
        String id;

        @Option(names = "--actor", paramLabel = "NAME", description = "Only changes by this person or probe.")
        @Nullable
        String actor;

        @Override
        View<AuditEntry> view() {
            return Views.auditEntries();
        }

        @Override
        String path() {
            var path = "/audit-entries";
            if (kind != null) {
                path = with(path, "subject-kind", kind);
            }
            if (id != null) {
                path = with(path, "subject-id", id);
            }
            return actor == null ? path : with(path, "actor", actor);
        }

        @Override
        String none() {
            return "No such change.";
        }
    }
}
