package panelbook.app.access;

import java.io.IOException;
import java.io.PrintStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.PosixFilePermissions;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;
import org.springframework.util.StringUtils;
import panelbook.wire.NewToken;

/**
 * At the very first start there is nobody who could make a token: one is made and shown once, on standard output, or in
 * the file that {@code panelbook.first-token-file} names, which only its owner can read. Whoever lost every engineer's
 * token starts the service once with {@code panelbook.new-engineer=NAME}: that makes one more, shown the same way.
 */
@Component
class FirstToken implements ApplicationRunner {

    private final Tokens tokens;
    private final TransactionTemplate transactions;
    private final @Nullable Path file;
    private final @Nullable String newEngineer;

    FirstToken(
            Tokens tokens,
            TransactionTemplate transactions,
            @Value("${panelbook.first-token-file:}") String file,
            @Value("${panelbook.new-engineer:}") String newEngineer) {
        this.tokens = tokens;
        this.transactions = transactions;
        this.file = StringUtils.hasText(file) ? Path.of(file) : null;
        this.newEngineer = StringUtils.hasText(newEngineer) ? newEngineer : null;
    }

    @Override
    public void run(ApplicationArguments arguments) {
        // a token that could not be shown must not be kept: it is shown before the transaction commits
        transactions.executeWithoutResult(status -> {
            tokens.addFirst().ifPresent(token -> show("First start", token));
            if (newEngineer != null) {
                show("New engineer", tokens.addEngineer(newEngineer));
            }
        });
    }

    private void show(String why, NewToken token) {
        if (file == null) {
            print(System.out, why, token);
        } else {
            write(file, token.secret());
        }
    }

    private static void print(PrintStream out, String why, NewToken token) {
        out.println();
        out.println(why + ". The token of \"" + token.token().holder() + "\", shown this once; keep it like a key:");
        out.println();
        out.println("    " + token.secret());
        out.println();
        out.flush();
    }

    private static void write(Path file, String secret) {
        var ownerOnly = PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"));
        try {
            var folder = file.toAbsolutePath().getParent();
            Files.createDirectories(folder);
            var draft = Files.createTempFile(folder, ".token", "", ownerOnly);
            Files.write(draft, (secret + "\n").getBytes(StandardCharsets.UTF_8));
            Files.move(draft, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException failed) {
            throw new UncheckedIOException(
                    "The first token cannot be written to " + file + " (panelbook.first-token-file)", failed);
        }
    }
}
