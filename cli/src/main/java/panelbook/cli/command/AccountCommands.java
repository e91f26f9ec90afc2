package panelbook.cli.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.util.Arrays;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Account;
import panelbook.wire.AccountDraft;
import panelbook.wire.PasswordDraft;
import panelbook.wire.Role;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on the accounts of people who sign in to the web board with a password. */
final class AccountCommands {

    private AccountCommands() {}

    /** What takes a password: typed without being shown, or the first line of a file or of standard input; never an argument. */
    abstract static class WithPassword extends Action {
        @Option(
                names = "--password-file",
                paramLabel = "FILE",
                description = "File whose first line is the password (default: typed, or standard input).")
        @Nullable
        String passwordFile;

        final String password() {
            var console = passwordFile == null && at().personReadsIn() ? System.console() : null;
            if (console == null) {
                return fromLine();
            }
            var typed = console.readPassword("Password (not shown, at least 12 characters): ");
            var again = console.readPassword("Once more: ");
            if (typed == null || again == null) {
                throw Failure.failed("No password was typed. Nothing was changed.");
            }
            if (!Arrays.equals(typed, again)) {
                throw Failure.failed("The two differ. Nothing was changed; type the command again.");
            }
            return new String(typed);
        }

        private String fromLine() {
            var source = passwordFile == null ? "standard input" : passwordFile;
            try (var reader = passwordFile == null
                    ? new BufferedReader(new InputStreamReader(at().in(), StandardCharsets.UTF_8))
                    : Files.newBufferedReader(at().file(passwordFile))) {
                var line = reader.readLine();
                if (line == null || line.isEmpty()) {
                    throw Failure.failed("There is no password in " + source
                            + ". Its first line must be the password and nothing else.");
                }
                return line;
            } catch (IOException e) {
                throw Failure.failed("The password cannot be read from " + source + ": " + e.getMessage(), e);
            }
        }
    }

    @Command(
            footer = {
                "  panelbook account add mara --holder \"Mara\" --role manager          (asks for the password)",
                "  panelbook account add mara --holder \"Mara\" --role manager --password-file mara.txt"
            },
            description = {
                "",
                "The person signs in to the web board with the name and the password, and can change the password there. A password has "
                        + "at least 12 characters of any kind; it is never an argument, since others can see those. Whoever has a token "
                        + "signs in with that and needs no account."
            })
    static final class Add extends WithPassword {
        @Parameters(paramLabel = "NAME", description = "What the person types to sign in.")
        String name = "";

        @Option(
                names = "--holder",
                required = true,
                paramLabel = "PERSON",
                description = "As the audit log is to name them.")
        String holder = "";

        @Option(
                names = "--role",
                required = true,
                paramLabel = "ROLE",
                description = "engineer, calibrator or manager.")
        String role = "";

        @Override
        int work() {
            printer().checkFields(Account.class);
            var as = Words.one(Role.class, "--role", role);
            var draft = new AccountDraft(UUID.randomUUID(), name, holder, as, password());
            var added = service().post(Account.class, "/accounts", draft);
            return added(
                    Views.accounts(),
                    added,
                    "the account " + name + " for " + holder,
                    "sign in at " + service().address() + "/sign-in");
        }
    }

    @Command(footer = "  panelbook account list")
    static final class ListAll extends Listing<Account> {
        @Override
        View<Account> view() {
            return Views.accounts();
        }

        @Override
        String path() {
            return "/accounts";
        }

        @Override
        String none() {
            return "There is no account. To add one: panelbook account add";
        }
    }

    @Command(
            footer = "  panelbook account password mara          (asks for the password)",
            description = {
                "",
                "In place of a forgotten password. Wherever the person is signed in with the old one, they no longer are."
            })
    static final class Password extends WithPassword {
        @Parameters(paramLabel = "ACCOUNT", description = "Name or id of the account.")
        String account = "";

        @Override
        int work() {
            printer().checkFields(Account.class);
            var id = names().account(account).id();
            var changed = service()
                    .post(Account.class, "/accounts/" + id + "/password", new PasswordDraft(password()))
                    .value();
            return changed(Views.accounts(), changed, "Set the password of " + changed.name(), "");
        }
    }

    @Command(
            footer = "  panelbook account retire mara",
            description = {
                "",
                "Nobody signs in with it any more, and whoever is signed in no longer is. Its record stays."
            })
    static final class Retire extends Action {
        @Parameters(paramLabel = "ACCOUNT", description = "Name or id of the account.")
        String account = "";

        @Override
        int work() {
            var id = names().account(account).id();
            var retired = service()
                    .post(Account.class, "/accounts/" + id + "/retirement", Map.of())
                    .value();
            return changed(
                    Views.accounts(), retired, "Retired the account " + retired.name() + "; its record stays", "");
        }
    }
}
