package panelbook.cli.match;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.json.Json;
import panelbook.cli.json.Records;
import panelbook.cli.service.OwnFiles;
import panelbook.cli.terminal.Failure;

/**
 * The file of one match: a JSON line for each thing that happened, forced to the disk before {@link #append} returns. A last
 * line that a killed process left half written is put aside in a file of its own. One process at a time has it open.
 */
final class Journal implements AutoCloseable {

    private static final String ENDING = ".jsonl";

    private final Path file;
    private final FileChannel channel;
    private final FileChannel lockChannel;
    private final List<Line> lines;

    private Journal(Path file, FileChannel channel, FileChannel lockChannel, List<Line> lines) {
        this.file = file;
        this.channel = channel;
        this.lockChannel = lockChannel;
        this.lines = lines;
    }

    static Path file(Path folder, UUID match) {
        return folder.resolve(match + ENDING);
    }

    /** Opens the journal of a match, made when it is not there. */
    static Journal open(Path folder, UUID match) {
        var file = file(folder, match);
        @Nullable FileChannel lockChannel = null;
        try {
            lockChannel = FileChannel.open(OwnFiles.touched(folder.resolve(match + ".lock")), StandardOpenOption.WRITE);
            if (lock(lockChannel) == null) {
                lockChannel.close();
                throw Failure.failed("Another session on this machine has match " + match
                        + " open. Go on there, or type quit there first.");
            }
            var isNew = !Files.exists(file);
            var channel = FileChannel.open(OwnFiles.touched(file), StandardOpenOption.WRITE, StandardOpenOption.APPEND);
            if (isNew) {
                OwnFiles.force(folder);
            }
            return new Journal(file, channel, lockChannel, mended(file, channel));
        } catch (IOException e) {
            close(lockChannel);
            throw unusable(file, e);
        }
    }

    private static @Nullable FileLock lock(FileChannel of) throws IOException {
        try {
            return of.tryLock();
        } catch (OverlappingFileLockException e) {
            return null; // another session in this very process
        }
    }

    private static void close(@Nullable FileChannel channel) {
        try {
            if (channel != null) {
                channel.close();
            }
        } catch (IOException e) {
            return; // the process gives it back at its end
        }
    }

    // a line counts once its end is on the disk: what stands after the last line end was never acknowledged
    private static List<Line> mended(Path file, FileChannel channel) throws IOException {
        var bytes = Files.readAllBytes(file);
        var whole = lastLineEnd(bytes);
        if (whole < bytes.length) {
            Files.write(
                    OwnFiles.touched(file.resolveSibling(file.getFileName() + ".torn")),
                    java.util.Arrays.copyOfRange(bytes, whole, bytes.length),
                    StandardOpenOption.APPEND);
            channel.truncate(whole);
            channel.force(true);
        }
        return parsed(file, new String(bytes, 0, whole, StandardCharsets.UTF_8));
    }

    private static int lastLineEnd(byte[] bytes) {
        for (var i = bytes.length - 1; i >= 0; i--) {
            if (bytes[i] == '\n') {
                return i + 1;
            }
        }
        return 0;
    }

    private static List<Line> parsed(Path file, String text) {
        var lines = new ArrayList<Line>();
        for (var line : text.lines().toList()) {
            lines.add(parsed(file, lines.size() + 1, line));
        }
        return lines;
    }

    private static Line parsed(Path file, int number, String text) {
        try {
            var reading = Records.read(Line.class, Json.parse(text));
            if (reading.value() != null) {
                return reading.value();
            }
            var misfits = reading.misfits();
            throw broken(
                    file,
                    number,
                    misfits.isEmpty()
                            ? "it is empty"
                            : misfits.get(0).pointer() + " " + misfits.get(0).message());
        } catch (IOException e) {
            throw broken(file, number, String.valueOf(e.getMessage()));
        }
    }

    private static Failure broken(Path file, int number, String why) {
        return Failure.failed(file + ", line " + number + ": this cannot be read (" + why
                + "). Keep a copy of the file, then mend or delete that line.");
    }

    /** What happened so far, without opening the file for writing. */
    static List<Line> read(Path file) {
        try {
            var bytes = Files.readAllBytes(file);
            return parsed(file, new String(bytes, 0, lastLineEnd(bytes), StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw unusable(file, e);
        }
    }

    Path file() {
        return file;
    }

    /** What happened so far. */
    List<Line> lines() {
        return List.copyOf(lines);
    }

    /** Adds a line; when this returns, it survives a power cut. */
    void append(Line line) {
        var bytes = (Json.text(Records.deepTree(line)) + "\n").getBytes(StandardCharsets.UTF_8);
        try {
            var before = channel.size();
            try {
                write(bytes);
            } catch (IOException e) {
                channel.truncate(before); // a full disk leaves no half line for the next one to run into
                throw e;
            }
            lines.add(line);
        } catch (IOException e) {
            throw unusable(file, e);
        }
    }

    private void write(byte[] bytes) throws IOException {
        var buffer = ByteBuffer.wrap(bytes);
        while (buffer.hasRemaining()) {
            channel.write(buffer);
        }
        channel.force(true);
    }

    /** Moves it to those that are over. */
    void retire() {
        try {
            var over = file.resolveSibling("closed");
            OwnFiles.makeFolder(over);
            Files.move(file, over.resolve(String.valueOf(file.getFileName())), StandardCopyOption.ATOMIC_MOVE);
            OwnFiles.force(over);
        } catch (IOException e) {
            throw unusable(file, e);
        }
    }

    private static Failure unusable(Path file, IOException e) {
        return Failure.failed(
                "The journal " + file + " cannot be used (" + e.getMessage()
                        + "). Nothing more was taken down; see to its folder and go on.",
                e);
    }

    @Override
    public void close() {
        close(channel);
        close(lockChannel);
    }
}
