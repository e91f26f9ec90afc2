package panelbook.db;

import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * Where and how the embedded PostgreSQL runs.
 *
 * @param folder the folder that holds data, logs and passwords; null for a throw-away server in a temporary folder
 * @param programsFolder the folder that the server programs are unpacked into, one sub-folder per version
 * @param port TCP port on loopback, 1 to 65535; 0 takes the port of the last start when it is free, else any free one
 * @param serverOptions settings of the server by name, such as {@code shared_buffers}; those that keep the server
 *     durable and closed to others are refused
 */
public record EmbeddedPostgresSettings(
        @Nullable Path folder, Path programsFolder, int port, Map<String, String> serverOptions) {

    public EmbeddedPostgresSettings {
        if (port < 0 || port > 65_535) {
            throw new IllegalArgumentException("port must be 0 (any free port) to 65535, not " + port);
        }
        folder = folder == null ? null : folder.toAbsolutePath().normalize();
        programsFolder = programsFolder.toAbsolutePath().normalize();
        serverOptions = Map.copyOf(serverOptions);
        ServerConfiguration.requireAllowed(serverOptions);
    }

    /** The durable server in {@link #defaultFolder()}. */
    public static EmbeddedPostgresSettings defaults() {
        return durable(defaultFolder());
    }

    /**
     * A durable server whose data are kept in a folder across restarts.
     *
     * @param folder the folder; made when it is not there
     */
    public static EmbeddedPostgresSettings durable(Path folder) {
        return new EmbeddedPostgresSettings(folder, defaultProgramsFolder(), 0, Map.of());
    }

    /** A fast server for tests: not durable, in a temporary folder that goes when the server stops. */
    public static EmbeddedPostgresSettings throwAway() {
        return new EmbeddedPostgresSettings(null, defaultProgramsFolder(), 0, Map.of());
    }

    /**
     * {@code $XDG_DATA_HOME/panelbook}, or {@code ~/.local/share/panelbook} where the variable is unset, empty or not
     * absolute (XDG Base Directory Specification 0.8).
     */
    public static Path defaultFolder() {
        return xdg(System.getenv("XDG_DATA_HOME"), ".local/share").resolve("panelbook");
    }

    /** {@code $XDG_CACHE_HOME/panelbook/postgresql}, or below {@code ~/.cache}, by the same specification. */
    public static Path defaultProgramsFolder() {
        return xdg(System.getenv("XDG_CACHE_HOME"), ".cache").resolve("panelbook/postgresql");
    }

    static Path xdg(@Nullable String variable, String belowHome) {
        if (variable != null && variable.startsWith("/")) {
            return Path.of(variable);
        }
        return Path.of(System.getProperty("user.home"), belowHome);
    }

    /** Whether data are kept across restarts. */
    public boolean isDurable() {
        return folder != null;
    }

    /** The same settings with another port; see {@link #port()}. */
    public EmbeddedPostgresSettings withPort(int newPort) {
        return new EmbeddedPostgresSettings(folder, programsFolder, newPort, serverOptions);
    }

    /** The same settings with another folder for the server programs. */
    public EmbeddedPostgresSettings withProgramsFolder(Path newFolder) {
        return new EmbeddedPostgresSettings(folder, newFolder, port, serverOptions);
    }

    /** The same settings with one more setting of the server, such as {@code shared_buffers}, {@code 512MB}. */
    public EmbeddedPostgresSettings withServerOption(String name, String value) {
        Map<String, String> more = new TreeMap<>(serverOptions);
        more.put(name, value);
        return new EmbeddedPostgresSettings(folder, programsFolder, port, more);
    }
}
