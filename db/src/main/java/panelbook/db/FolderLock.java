package panelbook.db;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.HashSet;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The right of one service to use a folder. The operating system holds it for the process, so that it ends with the
 * process however that ends.
 */
final class FolderLock implements AutoCloseable {
    /** Folders held by this process: closing a second channel on the lock file would drop the first one's lock. */
    private static final Set<Path> HELD = new HashSet<>();

    private final Path folder;
    private final FileChannel channel;

    private FolderLock(Path folder, FileChannel channel) {
        this.folder = folder;
        this.channel = channel;
    }

    /**
     * Takes the folder.
     *
     * @param folder an existing folder
     * @throws EmbeddedPostgresException when a live service holds it
     */
    static FolderLock take(Path folder) throws IOException {
        Path real = folder.toRealPath();
        synchronized (HELD) {
            if (HELD.contains(real)) {
                throw held(folder);
            }
            FileChannel channel = lockedChannel(real.resolve("lock"));
            if (channel == null) {
                throw held(folder);
            }
            HELD.add(real);
            FolderLock lock = new FolderLock(real, channel);
            try {
                OwnerOnly.write(holder(real), describeThisProcess());
            } catch (IOException failure) {
                lock.close();
                throw failure;
            }
            return lock;
        }
    }

    private static @Nullable FileChannel lockedChannel(Path file) throws IOException {
        FileChannel channel = FileChannel.open(
                file, Set.of(StandardOpenOption.CREATE, StandardOpenOption.WRITE), OwnerOnly.closedFile());
        @Nullable FileLock lock = channel.tryLock();
        if (lock == null) {
            channel.close();
            return null;
        }
        return channel;
    }

    private static String describeThisProcess() {
        return "process " + ProcessHandle.current().pid() + ", since "
                + Instant.now().truncatedTo(ChronoUnit.SECONDS);
    }

    private static EmbeddedPostgresException held(Path folder) {
        String by;
        try {
            by = " (" + Files.readString(holder(folder.toRealPath()), StandardCharsets.UTF_8) + ")";
        } catch (IOException unknown) {
            by = "";
        }
        return new EmbeddedPostgresException("The data folder " + folder + " is in use by another Panelbook service"
                + by + ": stop that one first, or give this one a data folder of its own.");
    }

    private static Path holder(Path folder) {
        return folder.resolve("holder");
    }

    /** Gives the folder back. */
    @Override
    public void close() throws IOException {
        synchronized (HELD) {
            if (HELD.remove(folder)) {
                Files.deleteIfExists(holder(folder));
                channel.close();
            }
        }
    }
}
