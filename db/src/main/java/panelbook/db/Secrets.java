package panelbook.db;

import java.io.IOException;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.Base64;
import java.util.Properties;

/**
 * The generated passwords of a data folder.
 *
 * @param administrator the superuser, for setting up only
 * @param application the role that the service works as; it owns the application's database
 */
record Secrets(Login administrator, Login application) {
    static final String ADMINISTRATOR = "panelbook_admin";
    static final String APPLICATION = "panelbook";
    private static final int PASSWORD_BYTES = 24;

    static Path file(Path folder) {
        return folder.resolve("passwords.properties");
    }

    static Secrets generate() {
        return new Secrets(new Login(ADMINISTRATOR, password()), new Login(APPLICATION, password()));
    }

    private static String password() {
        byte[] bytes = new byte[PASSWORD_BYTES];
        new SecureRandom().nextBytes(bytes);
        return Base64.getUrlEncoder().withoutPadding().encodeToString(bytes);
    }

    /** Reads the passwords of a folder. */
    static Secrets read(Path folder) throws IOException {
        Properties properties = new Properties();
        properties.load(new StringReader(Files.readString(file(folder), StandardCharsets.UTF_8)));
        return new Secrets(login(properties, folder, ADMINISTRATOR), login(properties, folder, APPLICATION));
    }

    private static Login login(Properties properties, Path folder, String role) {
        String password = properties.getProperty(role, "");
        if (password.isBlank()) {
            throw new EmbeddedPostgresException("The file " + file(folder) + " holds no password for the role " + role
                    + ": bring the file back from a backup, or remove it to have new passwords made.");
        }
        return new Login(role, password);
    }

    void write(Path folder) throws IOException {
        OwnerOnly.write(
                file(folder),
                "# Passwords of the database roles: for the owner of this folder only.\n" + line(administrator)
                        + line(application));
    }

    private static String line(Login login) {
        return login.username() + "=" + login.password() + "\n";
    }
}
