package panelbook.cli.service;

import java.nio.file.Path;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Surroundings;

/**
 * Where the client keeps its files, by the XDG Base Directory Specification 0.8.
 *
 * @param config the log-in
 * @param state the spool and the place reached in the stream of alerts: what must not get lost
 * @param cache names and ids from earlier calls: what can be fetched again
 */
public record Folders(Path config, Path state, Path cache) {

    /** By {@code XDG_CONFIG_HOME}, {@code XDG_STATE_HOME} and {@code XDG_CACHE_HOME}, or their defaults under {@code HOME}. */
    public static Folders of(Surroundings at) {
        return new Folders(
                folder(at, "XDG_CONFIG_HOME", ".config"),
                folder(at, "XDG_STATE_HOME", ".local/state"),
                folder(at, "XDG_CACHE_HOME", ".cache"));
    }

    /** The name of a file about the service at {@code address}. */
    public static String fileName(String address) {
        return address.replaceAll("[^A-Za-z0-9.-]+", "_");
    }

    private static Path folder(Surroundings at, String variable, String underHome) {
        var set = at.variable(variable);
        // the specification: a relative path is to be ignored
        if (set != null && Path.of(set).isAbsolute()) {
            return Path.of(set, "panelbook");
        }
        var home = at.variable("HOME");
        if (home == null) {
            throw Failure.failed("Neither " + variable
                    + " nor HOME is set: set one, so that there is a place for the client's files.");
        }
        return Path.of(home, underHome, "panelbook");
    }
}
