package panelbook.cli.spool;

import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.channels.FileLock;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ThreadLocalRandom;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;
import panelbook.cli.json.Json;
import panelbook.cli.json.Records;
import panelbook.cli.service.Folders;
import panelbook.cli.service.OwnFiles;
import panelbook.cli.service.Refused;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.Failure;

/**
 * The folder of runs that wait to be sent. A run is one file, written and forced to the disk before {@link #add} returns;
 * its name grows, so that names are the order. It is deleted only after the service has acknowledged it; a crash between
 * acknowledgement and deletion sends it again, which the service answers as a repeat. Locks keep several processes apart.
 */
public final class Spool {

    private static final String ENDING = ".json";
    private static final String REASON_ENDING = ".reason";
    private static final int NUMBER_LENGTH = 12;
    private static final Map<Path, ReentrantLock> IN_THIS_PROCESS = new ConcurrentHashMap<>();

    private final Path waiting;
    private final Path aside;

    /** What a file of the spool holds. */
    record Content(String service, Instant spooledAt, PendingRun run) {}

    /** Sends one run. */
    @FunctionalInterface
    public interface Sender {
        /**
         * Sends the run.
         *
         * @throws ServiceAway when nobody knows whether it arrived
         * @throws Failure when it is refused
         */
        void send(SpoolEntry entry, PendingRun run);
    }

    /**
     * What a sending did.
     *
     * @param sent runs that the service acknowledged
     * @param setAside runs that it refused
     * @param left runs that still wait
     * @param stopped why the sending stopped before its end; null when it did not
     */
    public record Sending(
            int sent,
            List<SpoolEntry> setAside,
            int left,
            @Nullable Failure stopped) {}

    /** The spool in the client's state folder. */
    public Spool(Folders folders) {
        this.waiting = folders.state().resolve("spool");
        this.aside = waiting.resolve("set-aside");
    }

    /** Whether no run waits. */
    public boolean isEmpty() {
        return names(waiting).isEmpty();
    }

    /** Puts a run at the end; when this returns, the run survives a power cut. */
    public void add(String service, Instant now, PendingRun run) {
        var content = new Content(service, now, run);
        try (var lock = lock("add.lock")) {
            OwnFiles.write(waiting.resolve(nextName()), out -> Json.write(content, out));
        } catch (IOException e) {
            throw Failure.failed(
                    "The run could not be spooled in " + waiting + " (" + e.getMessage()
                            + "). Keep its file and upload it again.",
                    e);
        }
    }

    // names of waiting runs and of those set aside, so that a name is never used twice
    private String nextName() {
        var last = 0L;
        for (var folder : List.of(waiting, aside)) {
            var names = names(folder);
            if (!names.isEmpty()) {
                last = Math.max(last, number(names.get(names.size() - 1)));
            }
        }
        // the random part keeps two runs apart even if a number is ever given twice
        return "%012d-%08x".formatted(last + 1, ThreadLocalRandom.current().nextInt()) + ENDING;
    }

    private static long number(String name) {
        try {
            return Long.parseLong(name.substring(0, NUMBER_LENGTH));
        } catch (NumberFormatException | StringIndexOutOfBoundsException e) {
            return 0; // somebody put a file of their own there
        }
    }

    /** Runs that wait, first to be sent first. */
    public List<SpoolEntry> waiting() {
        return names(waiting).stream().map(name -> entry(waiting, name)).toList();
    }

    /** Runs that were refused. */
    public List<SpoolEntry> setAside() {
        return names(aside).stream().map(name -> entry(aside, name)).toList();
    }

    /** Puts every run that was set aside back to wait, in its old place. */
    public int takeBack() {
        try (var lock = lock("send.lock")) {
            var names = names(aside);
            for (var name : names) {
                Files.move(aside.resolve(name), waiting.resolve(name), StandardCopyOption.ATOMIC_MOVE);
                Files.deleteIfExists(aside.resolve(name + REASON_ENDING));
            }
            return names.size();
        } catch (IOException e) {
            throw unusable(e);
        }
    }

    /** Deletes a run that was set aside, for good; false when there is none of that name. */
    public boolean delete(String name) {
        try (var lock = lock("send.lock")) {
            var there = Files.deleteIfExists(aside.resolve(name + ENDING));
            Files.deleteIfExists(aside.resolve(name + ENDING + REASON_ENDING));
            return there;
        } catch (IOException e) {
            throw unusable(e);
        }
    }

    /**
     * Sends every run that waits for {@code service}, in order. A refused run is set aside and the next one is sent; when
     * the service goes away, or does not accept who is asking, the rest stays.
     *
     * @param service only runs for this service; all when null
     */
    public Sending send(@Nullable String service, Sender sender) {
        if (isEmpty()) {
            return new Sending(0, List.of(), 0, null);
        }
        try (var lock = lock("send.lock")) {
            return sendLocked(service, sender);
        } catch (IOException e) {
            throw unusable(e);
        }
    }

    private Sending sendLocked(@Nullable String service, Sender sender) throws IOException {
        var sent = 0;
        var refused = new ArrayList<SpoolEntry>();
        for (var name : names(waiting)) {
            var entry = entry(waiting, name);
            if (service != null
                    && !entry.service().isEmpty()
                    && !entry.service().equals(service)) {
                continue;
            }
            try {
                sendOne(entry, sender);
                Files.deleteIfExists(waiting.resolve(name));
                OwnFiles.force(waiting);
                sent++;
            } catch (Failure e) {
                if (!isTheRunsFault(e)) {
                    return new Sending(sent, refused, names(waiting).size(), e);
                }
                refused.add(setAside(entry, e));
            }
        }
        return new Sending(sent, refused, names(waiting).size(), null);
    }

    private static void sendOne(SpoolEntry entry, Sender sender) {
        var run = entry.run();
        if (run == null) {
            throw Failure.failed("its file in the spool cannot be read");
        }
        sender.send(entry, run);
    }

    private static boolean isTheRunsFault(Failure failure) {
        if (failure instanceof Refused refused) {
            return refused.status() != 401 && refused.status() != 403;
        }
        return !(failure instanceof ServiceAway);
    }

    // the reason first: a crash in between leaves a run that waits and a reason that nobody reads
    private SpoolEntry setAside(SpoolEntry entry, Failure why) throws IOException {
        var reason = String.join("; ", concat(why.text(), why.places()));
        OwnFiles.write(
                aside.resolve(entry.name() + ENDING + REASON_ENDING),
                out -> out.write(reason.getBytes(java.nio.charset.StandardCharsets.UTF_8)));
        Files.move(
                waiting.resolve(entry.name() + ENDING),
                aside.resolve(entry.name() + ENDING),
                StandardCopyOption.ATOMIC_MOVE);
        OwnFiles.force(aside);
        OwnFiles.force(waiting);
        return new SpoolEntry(entry.name(), entry.service(), entry.spooledAt(), entry.run(), reason);
    }

    private static List<String> concat(String first, List<String> rest) {
        var all = new ArrayList<String>();
        all.add(first);
        all.addAll(rest);
        return all;
    }

    private SpoolEntry entry(Path folder, String name) {
        var plain = name.substring(0, name.length() - ENDING.length());
        var content = content(folder.resolve(name));
        var refusal = folder.equals(aside) ? reason(name) : null;
        return content == null
                ? new SpoolEntry(plain, "", Instant.EPOCH, null, refusal)
                : new SpoolEntry(plain, content.service(), content.spooledAt(), content.run(), refusal);
    }

    private static @Nullable Content content(Path file) {
        try (var in = Files.newInputStream(file)) {
            return Records.read(Content.class, Json.parse(in)).value();
        } catch (IOException e) {
            return null;
        }
    }

    private String reason(String name) {
        try {
            return Files.readString(aside.resolve(name + REASON_ENDING));
        } catch (IOException e) {
            return "unknown";
        }
    }

    private static List<String> names(Path folder) {
        try (var files = Files.list(folder)) {
            return files.map(file -> String.valueOf(file.getFileName()))
                    .filter(name -> name.endsWith(ENDING) && !name.startsWith("."))
                    .sorted()
                    .toList();
        } catch (NoSuchFileException e) {
            return List.of();
        } catch (IOException e) {
            throw Failure.failed("The spool in " + folder + " cannot be read: " + e.getMessage(), e);
        }
    }

    // a file lock keeps processes apart, not the threads of one
    private Lock lock(String name) throws IOException {
        var file = waiting.resolve(name);
        var threads = IN_THIS_PROCESS.computeIfAbsent(file, f -> new ReentrantLock());
        threads.lock();
        try {
            OwnFiles.makeFolder(aside);
            var channel = FileChannel.open(OwnFiles.touched(file), StandardOpenOption.WRITE);
            return new Lock(threads, channel, channel.lock());
        } catch (IOException | RuntimeException e) {
            threads.unlock();
            throw e;
        }
    }

    private record Lock(ReentrantLock threads, FileChannel channel, FileLock lock) implements AutoCloseable {
        @Override
        public void close() throws IOException {
            try {
                channel.close(); // releases the lock of the file
            } finally {
                threads.unlock();
            }
        }
    }

    private Failure unusable(IOException e) {
        return Failure.failed("The spool in " + waiting + " cannot be used: " + e.getMessage(), e);
    }
}
