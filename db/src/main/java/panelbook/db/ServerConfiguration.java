package panelbook.db;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;

/** The server's settings: written anew at each start into a file that the server reads last. */
final class ServerConfiguration {
    static final String FILE = "panelbook.conf";
    static final String LOOPBACK = "127.0.0.1";

    /** What makes the server durable and closed, and where its files lie: not up for change. */
    private static final Set<String> FIXED = Set.of(
            "listen_addresses",
            "port",
            "unix_socket_directories",
            "fsync",
            "synchronous_commit",
            "full_page_writes",
            "password_encryption",
            "allow_alter_system",
            "data_directory",
            "hba_file",
            "logging_collector",
            "log_directory",
            "log_filename");

    private ServerConfiguration() {}

    /**
     * Checks options given from outside.
     *
     * @throws IllegalArgumentException naming the option that is not a setting's name or is fixed
     */
    static void requireAllowed(Map<String, String> options) {
        for (String name : new TreeMap<>(options).keySet()) {
            if (!name.matches("[A-Za-z_][A-Za-z0-9_.]*")) {
                throw new IllegalArgumentException("'" + name + "' is not the name of a PostgreSQL setting");
            }
            if (FIXED.contains(name.toLowerCase(Locale.ROOT))) {
                throw new IllegalArgumentException("The embedded PostgreSQL fixes its setting '" + name
                        + "': use an outside PostgreSQL to have it otherwise");
            }
        }
    }

    /** Makes a fresh data folder read our settings last and let nobody in but by password over loopback. */
    static void install(Path data) throws IOException {
        Path main = data.resolve("postgresql.conf");
        OwnerOnly.write(
                main,
                Files.readString(main, StandardCharsets.UTF_8)
                        + "\n# The service writes this file at each start; it has the last word.\ninclude_if_exists '"
                        + FILE + "'\n");
        OwnerOnly.write(
                data.resolve("pg_hba.conf"),
                "# Passwords only, from this machine only.\nhost all all " + LOOPBACK + "/32 scram-sha-256\n");
    }

    /** Writes the settings of the coming start. */
    static void write(Path data, Path logs, int port, boolean durable, Map<String, String> options) throws IOException {
        Map<String, String> all = new LinkedHashMap<>();
        all.put("listen_addresses", LOOPBACK);
        all.put("port", Integer.toString(port));
        all.put("unix_socket_directories", "");
        all.put("password_encryption", "scram-sha-256");
        all.put("allow_alter_system", "off");
        all.put("timezone", "UTC");
        all.put("log_timezone", "UTC");
        all.putAll(durable ? durableSettings(logs) : throwAwaySettings());
        all.putAll(options);
        StringBuilder text = new StringBuilder("# Written by the service at each start: changes here are lost.\n");
        all.forEach((name, value) -> text.append(name)
                .append(" = '")
                .append(value.replace("'", "''").replace("\n", " "))
                .append("'\n"));
        OwnerOnly.write(data.resolve(FILE), text.toString());
    }

    /** One log file for each day of the week, emptied when its day comes again. */
    private static Map<String, String> durableSettings(Path logs) {
        Map<String, String> settings = new LinkedHashMap<>();
        settings.put("fsync", "on");
        settings.put("synchronous_commit", "on");
        settings.put("full_page_writes", "on");
        settings.put("logging_collector", "on");
        settings.put("log_directory", logs.toString());
        settings.put("log_filename", "postgresql-%a.log");
        settings.put("log_file_mode", "0600");
        settings.put("log_rotation_age", "1d");
        settings.put("log_rotation_size", "0");
        settings.put("log_truncate_on_rotation", "on");
        settings.put("log_line_prefix", "%m [%p] %q%u@%d ");
        return settings;
    }

    private static Map<String, String> throwAwaySettings() {
        Map<String, String> settings = new LinkedHashMap<>();
        settings.put("fsync", "off");
        settings.put("synchronous_commit", "off");
        settings.put("full_page_writes", "off");
        settings.put("wal_level", "minimal");
        settings.put("max_wal_senders", "0");
        return settings;
    }
}
