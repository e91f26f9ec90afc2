package panelbook.cli.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.LogIn;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Identity;
import picocli.AutoComplete;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Logging in and out, who one is, and completion. */
final class AccessCommands {

    private AccessCommands() {}

    /** Who is logged in where. */
    record Who(
            String service,
            String holder,
            String role,
            @Nullable Instant expiresAt) {

        static Who of(Service service, Identity identity) {
            return new Who(service.address(), identity.holder(), identity.role().toString(), identity.expiresAt());
        }
    }

    private static final List<Column<Who>> FIELDS = List.of(
            Column.of("SERVICE", Who::service),
            Column.of("HOLDER", Who::holder),
            Column.of("ROLE", Who::role),
            Column.of("EXPIRES", Who::expiresAt));

    @Command(
            footer = {
                "  panelbook log-in http://localhost:8089 --token-file token.txt",
                "  pass show panelbook | panelbook log-in http://localhost:8089",
                "  panelbook log-in http://localhost:8089          (asks for the token)"
            },
            description = {
                "",
                "Checks the token with the service, then keeps it in a file that only you may read "
                        + "($XDG_CONFIG_HOME/panelbook/log-in.json). The token is never an argument, since others can see those. "
                        + "For one call, PANELBOOK_SERVICE and PANELBOOK_TOKEN_FILE stand in for a log-in."
            })
    static final class LogInAction extends Action {
        @Parameters(paramLabel = "URL", description = "Address of the service.")
        String url = "";

        @Option(
                names = "--token-file",
                paramLabel = "FILE",
                description = "File whose first line is the token (default: standard input).")
        @Nullable
        String tokenFile;

        @Override
        int work() {
            var address = LogIn.address(url);
            var logIn = new LogIn(address, token());
            var service = new Service(logIn);
            var identity = service.get(Identity.class, "/identity");
            logIn.keep(at());
            printer().one(Who.class, Who.of(service, identity), FIELDS);
            warn(address);
            printer().say("Logged in. Next: panelbook room list");
            return 0;
        }

        private String token() {
            if (tokenFile != null) {
                return LogIn.token(at().file(tokenFile));
            }
            var console = at().personReadsIn() ? System.console() : null;
            if (console != null) {
                var typed = console.readPassword("Token (not shown): ");
                return LogIn.checkedToken(typed == null ? null : new String(typed), "what was typed");
            }
            try {
                var reader = new BufferedReader(new InputStreamReader(at().in(), StandardCharsets.UTF_8));
                return LogIn.checkedToken(reader.readLine(), "standard input");
            } catch (IOException e) {
                throw Failure.failed("The token cannot be read from standard input: " + e.getMessage(), e);
            }
        }

        private void warn(String address) {
            var host = String.valueOf(URI.create(address).getHost());
            var local = host.equals("localhost") || host.startsWith("127.") || host.equals("[::1]");
            if (address.startsWith("http://") && !local) {
                printer().say("Note: over http others on the network can read your token. Ask for an https address.");
            }
        }
    }

    @Command(footer = "  panelbook log-out")
    static final class LogOut extends Action {
        @Override
        int work() {
            printer()
                    .say(
                            LogIn.forget(at())
                                    ? "Logged out; the token was deleted from this machine and still works. To end it: panelbook token revoke"
                                    : "You were not logged in.");
            return 0;
        }
    }

    @Command(footer = {"  panelbook who", "  panelbook who --json=role"})
    static final class WhoAction extends Action {
        @Override
        int work() {
            printer().checkFields(Who.class);
            var identity = service().get(Identity.class, "/identity");
            printer().one(Who.class, Who.of(service(), identity), FIELDS);
            return 0;
        }
    }

    @Command(
            footer = {
                "  source <(panelbook completion)",
                "  panelbook completion > ~/.local/share/bash-completion/completions/panelbook"
            })
    static final class Completion extends Action {
        @Override
        int work() {
            at().out().print(AutoComplete.bash("panelbook", Catalogue.wholeCommandLine(at())));
            return 0;
        }
    }
}
