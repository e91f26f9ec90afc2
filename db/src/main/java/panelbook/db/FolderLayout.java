package panelbook.db;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;

/**
 * What lies where in the folder of an embedded PostgreSQL.
 *
 * @param folder the folder itself, by its real path
 */
record FolderLayout(Path folder) {
    private static final String UNFINISHED = "data.unfinished";

    /** The server's own data. */
    Path data() {
        return folder.resolve("data");
    }

    /** Data being set up, by a name of this process's own: a killed one's set-up may still be writing into another. */
    Path unfinishedData() {
        return folder.resolve(UNFINISHED + "-" + ProcessHandle.current().pid());
    }

    /** Data whose set-up was cut off: worthless. */
    List<Path> leftUnfinished() throws IOException {
        try (Stream<Path> entries = Files.list(folder)) {
            return entries.filter(entry -> entry.getFileName().toString().startsWith(UNFINISHED))
                    .toList();
        }
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
