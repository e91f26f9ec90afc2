package panelbook.cli.service;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.Objects;
import java.util.Set;

/** Files that only their owner may read, written so that a crash at any moment leaves the old or the new, never half. */
public final class OwnFiles {

    private static final boolean POSIX =
            FileSystems.getDefault().supportedFileAttributeViews().contains("posix");
    private static final Set<PosixFilePermission> OWNER_ONLY = PosixFilePermissions.fromString("rw-------");

    /** Writes the content. */
    @FunctionalInterface
    public interface Content {
        /** Writes the content to {@code out}. */
        void writeTo(OutputStream out) throws IOException;
    }

    private OwnFiles() {}

    private static Path folder(Path file) {
        return Objects.requireNonNull(file.toAbsolutePath().getParent(), "a file lies in a folder");
    }

    /** Makes a folder and its parents; new ones are its owner's only. */
    public static void makeFolder(Path folder) throws IOException {
        if (!Files.isDirectory(folder)) {
            Files.createDirectories(folder, attributes("rwx------"));
        }
    }

    /** Writes a temporary file, forces it to the disk, renames it to {@code file} and forces the folder. */
    public static void write(Path file, Content content) throws IOException {
        var folder = folder(file);
        makeFolder(folder);
        var temporary = Files.createTempFile(folder, ".", ".new", attributes("rw-------"));
        try {
            try (var channel = FileChannel.open(temporary, StandardOpenOption.WRITE)) {
                var out = new java.io.BufferedOutputStream(Channels.newOutputStream(channel));
                content.writeTo(out);
                out.flush();
                channel.force(true);
            }
            Files.move(temporary, file, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
            force(folder);
        } finally {
            Files.deleteIfExists(temporary);
        }
    }

    /** Forces the entries of a folder to the disk, so that a rename or a deletion in it survives a power cut. */
    public static void force(Path folder) throws IOException {
        if (POSIX) {
            try (var channel = FileChannel.open(folder, StandardOpenOption.READ)) {
                channel.force(true);
            }
        }
    }

    /** An empty file that only its owner may read, made if it is not there. */
    public static Path touched(Path file) throws IOException {
        makeFolder(folder(file));
        try {
            Files.createFile(file, attributes("rw-------"));
        } catch (FileAlreadyExistsException e) {
            return file;
        }
        return file;
    }

    /** Whether others than the owner may read or write a file. */
    public static boolean isOpenToOthers(Path file) throws IOException {
        return POSIX && !OWNER_ONLY.containsAll(Files.getPosixFilePermissions(file));
    }

    private static FileAttribute<?>[] attributes(String permissions) {
        return POSIX
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString(permissions))
                }
                : new FileAttribute<?>[0];
    }
}
