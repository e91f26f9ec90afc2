package panelbook.cli.service;

import java.io.IOException;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import org.jspecify.annotations.Nullable;
import panelbook.cli.json.Json;
import panelbook.cli.json.Records;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Surroundings;

/**
 * Which service to talk to, and as whom. Kept in a file that only its owner may read; {@code PANELBOOK_SERVICE} and
 * {@code PANELBOOK_TOKEN_FILE} override it for one call.
 *
 * @param service address, without a stroke at its end
 * @param token secret of the token
 */
public record LogIn(String service, String token) {

    private static final String NOT_LOGGED_IN =
            "You are not logged in. Type: panelbook log-in http://HOST:8089 --token-file FILE";

    @Override
    public String toString() {
        return "log-in at " + service; // never the token
    }

    /** Reads the log-in. */
    public static LogIn read(Surroundings at) {
        var service = at.variable("PANELBOOK_SERVICE");
        var tokenFile = at.variable("PANELBOOK_TOKEN_FILE");
        if (service != null && tokenFile != null) {
            return new LogIn(address(service), token(at.file(tokenFile)));
        }
        var kept = kept(at);
        if (kept == null) {
            throw Failure.failed(NOT_LOGGED_IN);
        }
        // a token is for one service: it is never sent to another
        if (service != null && !address(service).equals(kept.service())) {
            throw Failure.failed(
                    "PANELBOOK_SERVICE names another service than you are logged in to. Set PANELBOOK_TOKEN_FILE, too, or log in there.");
        }
        return new LogIn(kept.service(), tokenFile != null ? token(at.file(tokenFile)) : kept.token());
    }

    private static @Nullable LogIn kept(Surroundings at) {
        var file = file(at);
        if (!Files.exists(file)) {
            return null;
        }
        try (var in = Files.newInputStream(file)) {
            warnWhenOpen(at, file);
            var reading = Records.read(LogIn.class, Json.parse(in));
            if (reading.value() == null) {
                throw Failure.failed("The log-in in " + file + " cannot be read. Log in again: panelbook log-in URL");
            }
            return reading.value();
        } catch (IOException e) {
            throw Failure.failed(
                    "The log-in in " + file + " cannot be read (" + e.getMessage()
                            + "). Log in again: panelbook log-in URL",
                    e);
        }
    }

    private static void warnWhenOpen(Surroundings at, Path file) throws IOException {
        if (OwnFiles.isOpenToOthers(file)) {
            at.err().println("panelbook: others may read your token. Type: chmod 600 " + file);
        }
    }

    /** Keeps this log-in. */
    public void keep(Surroundings at) {
        var file = file(at);
        try {
            OwnFiles.write(file, out -> Json.write(this, out));
        } catch (IOException e) {
            throw Failure.failed("The log-in cannot be written to " + file + ": " + e.getMessage(), e);
        }
    }

    /** Forgets the log-in; false when there was none. */
    public static boolean forget(Surroundings at) {
        try {
            return Files.deleteIfExists(file(at));
        } catch (IOException e) {
            throw Failure.failed("The log-in in " + file(at) + " cannot be deleted: " + e.getMessage(), e);
        }
    }

    private static Path file(Surroundings at) {
        return Folders.of(at).config().resolve("log-in.json");
    }

    /** A token from the first line of a file. */
    public static String token(Path file) {
        try (var reader = Files.newBufferedReader(file)) {
            return checkedToken(reader.readLine(), file.toString());
        } catch (IOException e) {
            throw Failure.failed("The token file " + file + " cannot be read: " + reason(e), e);
        }
    }

    /** A token that looks like one. */
    public static String checkedToken(@Nullable String line, String source) {
        var token = line == null ? "" : line.strip();
        if (token.isEmpty()) {
            throw Failure.failed(
                    "There is no token in " + source + ". Its first line must be the token and nothing else.");
        }
        if (!token.chars().allMatch(c -> c > ' ' && c < 127)) {
            throw Failure.failed("What " + source + " holds is no token: it has characters that no token has.");
        }
        return token;
    }

    /** The address of a service in one spelling. */
    public static String address(String text) {
        URI uri;
        try {
            uri = URI.create(text.strip());
        } catch (IllegalArgumentException e) {
            throw Failure.usage("\"" + text + "\" is not an address. Give one such as http://panelbook.example:8089");
        }
        var scheme = uri.getScheme() == null ? "" : uri.getScheme().toLowerCase(Locale.ROOT);
        if (uri.getHost() == null || !(scheme.equals("http") || scheme.equals("https"))) {
            throw Failure.usage("\"" + text + "\" is not an address. Give one such as http://panelbook.example:8089");
        }
        var port = uri.getPort() < 0 ? "" : ":" + uri.getPort();
        var path = uri.getPath() == null ? "" : uri.getPath().replaceAll("/+$", "");
        return scheme + "://" + uri.getHost().toLowerCase(Locale.ROOT) + port + path;
    }

    static String reason(IOException e) {
        return e instanceof java.nio.file.NoSuchFileException
                ? "there is no such file"
                : String.valueOf(e.getMessage());
    }
}
