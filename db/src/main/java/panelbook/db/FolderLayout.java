package panelbook.db;

import java.nio.file.Path;

/**
 * What lies where in the folder of an embedded PostgreSQL.
 *
 * @param folder the folder itself, by its real path
 */
record FolderLayout(Path folder) {

    /** The server's own data. */
    Path data() {
        return folder.resolve("data");
    }

    /** Data being set up; a leftover of this name is worthless. */
    Path unfinishedData() {
        return folder.resolve("data.unfinished");
    }

    Path logs() {
        return folder.resolve("log");
    }

    /** What the server says before its own log opens. */
    Path startLog() {
        return logs().resolve("start.log");
    }

    Path guardScript() {
        return folder.resolve("guard.sh");
    }

    /** The process number of the guard. */
    Path guardNote() {
        return folder.resolve("guard.pid");
    }

    /** The note that PostgreSQL keeps while it runs; its first line is the process number. */
    Path postmasterNote() {
        return data().resolve("postmaster.pid");
    }

    /** Where to connect, for people with a database client. */
    Path connectionNote() {
        return folder.resolve("connection.properties");
    }
}
