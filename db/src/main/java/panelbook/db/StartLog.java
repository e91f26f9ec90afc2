package panelbook.db;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** What the server and its guard wrote about a start that failed. */
final class StartLog {
    private static final int LINES = 12;
    private static final String HANDED_OVER = "redirecting log output";
    private static final String LAST_LINE = "database system is shut down";
    private static final long MOST_WAITED_MILLIS = 3000;
    private static final long POLL_MILLIS = 100;

    private StartLog() {}

    /** The last lines of the start's log, and of the server's own log if it came that far. */
    static String lastLines(FolderLayout layout) throws IOException {
        StringBuilder text = new StringBuilder();
        for (Path file : List.of(
                layout.logs().resolve("guard.log"),
                layout.startLog().resolveSibling(layout.startLog().getFileName() + ".control"),
                layout.startLog())) {
            text.append(tail(file));
        }
        if (text.indexOf(HANDED_OVER) >= 0) {
            text.append(serverLog(layout));
        }
        return text.toString().strip();
    }

    /**
     * The last lines of the server's own log. A process of the server's writes it, which outlives the server by a moment:
     * waits, within bounds, for the line that the server ends with and for that process to be gone.
     */
    private static String serverLog(FolderLayout layout) throws IOException {
        String lines = "";
        for (long waited = 0; waited < MOST_WAITED_MILLIS; waited += POLL_MILLIS) {
            Optional<Path> newest = newestServerLog(layout);
            lines = newest.isPresent() ? tail(newest.get()) : "";
            ServerStart.pause(POLL_MILLIS);
            if (lines.contains(LAST_LINE)) {
                break;
            }
        }
        return lines;
    }

    /** Whether another attempt may succeed: a port that was taken meanwhile, a dying server that still holds memory. */
    static boolean isPassing(String failure, boolean portIsFixed) {
        boolean portTaken = failure.contains("Address already in use") && !portIsFixed;
        return portTaken
                || failure.contains("shared memory block")
                || failure.contains("\"postmaster.pid\" already exists");
    }

    private static String tail(Path file) throws IOException {
        if (!Files.isRegularFile(file)) {
            return "";
        }
        List<String> lines =
                Files.readString(file, StandardCharsets.UTF_8).lines().toList();
        return String.join("\n", lines.subList(Math.max(0, lines.size() - LINES), lines.size())) + "\n";
    }

    private static Optional<Path> newestServerLog(FolderLayout layout) throws IOException {
        try (Stream<Path> files = Files.list(layout.logs())) {
            return files.filter(file -> file.getFileName().toString().startsWith("postgresql-"))
                    .max(Comparator.comparing(StartLog::modified));
        }
    }

    private static long modified(Path file) {
        try {
            return Files.getLastModifiedTime(file).toMillis();
        } catch (IOException failure) {
            throw new UncheckedIOException(failure);
        }
    }
}
