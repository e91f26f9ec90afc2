package panelbook.db;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileVisitResult;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.SimpleFileVisitor;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** Files and folders that nobody but their owner can look into. */
final class OwnerOnly {
    private static final Set<PosixFilePermission> FOLDER = PosixFilePermissions.fromString("rwx------");
    private static final Set<PosixFilePermission> FILE = PosixFilePermissions.fromString("rw-------");

    private OwnerOnly() {}

    /** Makes the folder with its parents, or closes one that is already there. */
    static void makeFolder(Path folder) throws IOException {
        if (Files.isDirectory(folder)) {
            Files.setPosixFilePermissions(folder, FOLDER);
        } else {
            Files.createDirectories(folder, PosixFilePermissions.asFileAttribute(FOLDER));
        }
    }

    /** What a new file has to be given to be closed from its first moment. */
    static FileAttribute<?> closedFile() {
        return PosixFilePermissions.asFileAttribute(FILE);
    }

    /** Writes the whole file or nothing: a crash leaves the old text or the new, on the disk when this returns. */
    static void write(Path file, String text) throws IOException {
        Path fresh = file.resolveSibling(file.getFileName() + ".new");
        Files.deleteIfExists(fresh);
        try (FileChannel channel = FileChannel.open(
                fresh, Set.of(StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE), closedFile())) {
            ByteBuffer bytes = StandardCharsets.UTF_8.encode(text);
            while (bytes.hasRemaining()) {
                channel.write(bytes);
            }
            channel.force(true);
        }
        Files.move(fresh, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
        syncFolder(file.toAbsolutePath().getParent());
    }

    /** Brings a folder's own entries to the disk, so that a rename in it survives a power cut. */
    static void syncFolder(@Nullable Path folder) throws IOException {
        if (folder != null) {
            try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
                channel.force(true);
            }
        }
    }

    /** Deletes a folder and all in it; a folder that is not there is no error. */
    static void deleteTree(Path folder) throws IOException {
        if (!Files.exists(folder)) {
            return;
        }
        Files.walkFileTree(folder, new SimpleFileVisitor<>() {
            @Override
            public FileVisitResult visitFile(Path file, BasicFileAttributes attributes) throws IOException {
                Files.deleteIfExists(file);
                return FileVisitResult.CONTINUE;
            }

            @Override
            public FileVisitResult postVisitDirectory(Path visited, @Nullable IOException failure) throws IOException {
                if (failure != null) {
                    throw failure;
                }
                Files.deleteIfExists(visited);
                return FileVisitResult.CONTINUE;
            }
        });
    }
}
