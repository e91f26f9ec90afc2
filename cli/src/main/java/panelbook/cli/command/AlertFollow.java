package panelbook.cli.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.AlertStream;
import panelbook.cli.service.Folders;
import panelbook.cli.service.OwnFiles;
import panelbook.cli.terminal.Failure;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEvent;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;

/** Prints alert events as they happen. */
@Command(
        footer = {
            "  panelbook alert follow",
            "  panelbook alert follow --resume --json | my-notifier",
            "  panelbook alert follow --since 0 --count 10"
        },
        description = {
            "",
            "One line per event, until interrupted. When the service restarts the stream is taken up where it broke off, "
                    + "without a gap. With --resume the place is kept, so that the next follow --resume goes on from there, too."
        })
final class AlertFollow extends Action {

    @Option(
            names = "--since",
            paramLabel = "SEQUENCE",
            description = "First print what came after this event; 0 for all.")
    @Nullable
    Long since;

    @Option(
            names = "--resume",
            description = "Go on after the last event that an earlier --resume printed, and keep the place.")
    boolean resume;

    @Option(names = "--count", paramLabel = "N", description = "Stop after so many events.")
    @Nullable
    Integer count;

    @Option(names = "--room", paramLabel = "ROOM", description = "Only events of this room.")
    @Nullable
    String room;

    @Option(names = "--facility", paramLabel = "FACILITY", description = "Only events of this facility.")
    @Nullable
    String facility;

    @Option(names = "--cause", paramLabel = "CAUSE", description = "Only events of alerts with this cause.")
    @Nullable
    String cause;

    private @Nullable UUID roomId;
    private @Nullable UUID facilityId;
    private @Nullable AlertCause causeWanted;
    private int printed;

    @Override
    int work() {
        if (since != null && (resume || since < 0)) {
            throw Failure.usage("--since takes a number from 0 and goes without --resume.");
        }
        if (count != null && count < 1) {
            throw Failure.usage("--count must be 1 or more; it was " + count + ".");
        }
        printer().checkFields(AlertEvent.class);
        causeWanted = cause == null ? null : Words.one(AlertCause.class, "--cause", cause);
        roomId = room == null ? null : names().room(room).id();
        facilityId = facility == null ? null : names().facility(facility).id();
        new AlertStream(service(), at().sleeper(), new Random(), printer()::say, resume ? kept() : since)
                .follow(this::heard, this::reached);
        return 0;
    }

    private boolean heard(AlertEvent event) {
        if (isWanted(event)) {
            printer().streamed(AlertEvent.class, event, Views.alertEvents().columns());
            printed++;
        }
        return count == null || printed < count;
    }

    private boolean isWanted(AlertEvent event) {
        return (roomId == null || roomId.equals(event.roomId()))
                && (facilityId == null || facilityId.equals(event.facilityId()))
                && (causeWanted == null || causeWanted == event.cause());
    }

    // after printing: an event may be printed twice after a crash, but none is lost
    private void reached(Long sequence) {
        if (!resume) {
            return;
        }
        try {
            OwnFiles.write(file(), out -> out.write(sequence.toString().getBytes(StandardCharsets.US_ASCII)));
        } catch (IOException e) {
            throw Failure.failed("The place in the stream cannot be kept in " + file() + ": " + e.getMessage(), e);
        }
    }

    private @Nullable Long kept() {
        try {
            return Files.exists(file()) ? Long.valueOf(Files.readString(file()).strip()) : null;
        } catch (IOException | NumberFormatException e) {
            throw Failure.failed(
                    "The place kept in " + file()
                            + " cannot be read. Give --since SEQUENCE, or delete that file to start from now.",
                    e);
        }
    }

    private Path file() {
        return Folders.of(at())
                .state()
                .resolve("follow")
                .resolve(Folders.fileName(service().address()));
    }
}
