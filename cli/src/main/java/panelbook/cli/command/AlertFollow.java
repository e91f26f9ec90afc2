package panelbook.cli.command;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.AlertStream;
import panelbook.cli.service.Folders;
import panelbook.cli.service.OwnFiles;
import panelbook.cli.terminal.Failure;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEvent;
import panelbook.wire.AlertEventKind;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Prints alert events as they happen. */
@Command(
        footer = {
            "  panelbook alert follow",
            "  panelbook alert follow --resume --json --kind opened",
            "  panelbook alert follow --facility North --exec ./light-the-lamp.sh",
            "  panelbook alert follow --since 0 --count 10"
        },
        description = {
            "",
            "One line per event, until interrupted. When the service restarts the stream is taken up where it broke off, "
                    + "without a gap. With --resume the place is kept, so that the next follow --resume goes on from there, too. "
                    + "What another alert explains is left out, unless --held is given.",
            "",
            "With --exec each event is handed to a program as JSON on its standard input, and as PANELBOOK_SEQUENCE, "
                    + "PANELBOOK_EVENT, PANELBOOK_ALERT, PANELBOOK_CAUSE, PANELBOOK_SUBJECT and PANELBOOK_HEADLINE in its environment. "
                    + "It is started directly, without a shell. The place is kept for each program and filter, and moves on only when the "
                    + "program ended with 0: after a kill an event may come twice, but none is left out. A program that fails is "
                    + "tried again after growing pauses; after five failures follow ends with 1, and goes on with the same event when "
                    + "it is started again."
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

    @Option(
            names = "--kind",
            paramLabel = "KIND",
            description = "Only events of this kind, such as opened or closed; may be given many times.")
    List<String> kinds = new ArrayList<>();

    @Option(names = "--held", description = "Also events of alerts that another alert explains.")
    boolean held;

    @Option(
            names = "--exec",
            paramLabel = "PROGRAM",
            description = "Hand each event to this program instead of printing it.")
    @Nullable
    String program;

    @Parameters(paramLabel = "ARGUMENT", arity = "0..*", description = "Arguments of the program of --exec.")
    List<String> arguments = new ArrayList<>();

    private final Set<AlertEventKind> kindsWanted = EnumSet.noneOf(AlertEventKind.class);
    private @Nullable EventProgram handing;
    private @Nullable UUID roomId;
    private @Nullable UUID facilityId;
    private @Nullable AlertCause causeWanted;
    private int printed;

    @Override
    int work() {
        if (since != null && (keepsPlace() || since < 0)) {
            throw Failure.usage("--since takes a number from 0 and goes without --resume and --exec.");
        }
        if (program == null && !arguments.isEmpty()) {
            throw Failure.usage(
                    "Only the program of --exec takes arguments, but there is \"" + arguments.get(0) + "\".");
        }
        if (count != null && count < 1) {
            throw Failure.usage("--count must be 1 or more; it was " + count + ".");
        }
        printer().checkFields(AlertEvent.class);
        causeWanted = cause == null ? null : Words.one(AlertCause.class, "--cause", cause);
        kinds.forEach(kind -> kindsWanted.add(Words.one(AlertEventKind.class, "--kind", kind)));
        handing = program == null ? null : EventProgram.of(at(), printer()::say, program, arguments);
        roomId = room == null ? null : names().room(room).id();
        facilityId = facility == null ? null : names().facility(facility).id();
        new AlertStream(service(), at().sleeper(), new Random(), printer()::say, keepsPlace() ? kept() : since)
                .follow(this::heard, this::reached);
        return 0;
    }

    private boolean heard(AlertEvent event) {
        if (isWanted(event)) {
            if (handing == null) {
                printer().streamed(AlertEvent.class, event, Views.alertEvents().columns());
            } else {
                handing.hand(event);
            }
            printed++;
        }
        return count == null || printed < count;
    }

    private boolean isWanted(AlertEvent event) {
        return (roomId == null || roomId.equals(event.roomId()))
                && (facilityId == null || facilityId.equals(event.facilityId()))
                && (causeWanted == null || causeWanted == event.cause())
                && (kindsWanted.isEmpty() || kindsWanted.contains(event.kind()))
                && (held || !event.heldBack());
    }

    // after printing or handing on: an event may come twice after a crash, but none is lost
    private void reached(Long sequence) {
        if (!keepsPlace()) {
            return;
        }
        try {
            OwnFiles.write(file(), out -> out.write(sequence.toString().getBytes(StandardCharsets.US_ASCII)));
        } catch (IOException e) {
            throw Failure.failed("The place in the stream cannot be kept in " + file() + ": " + e.getMessage(), e);
        }
    }

    /** A filter that was not followed by before goes on from where all was followed, if it was. */
    private @Nullable Long kept() {
        var file = Files.exists(file()) ? file() : fileOfAll();
        try {
            return Files.exists(file) ? Long.valueOf(Files.readString(file).strip()) : null;
        } catch (IOException | NumberFormatException e) {
            throw Failure.failed(
                    "The place kept in " + file
                            + " cannot be read. Give --since SEQUENCE, or delete that file to start from now.",
                    e);
        }
    }

    private boolean keepsPlace() {
        return resume || program != null;
    }

    /**
     * One place for what is printed, and one for each program, and of each one for every filter, so that they do not move each
     * other's: what one leaves out another may be waiting for.
     */
    private Path file() {
        var all = fileOfAll();
        return filters() ? all.resolveSibling(all.getFileName() + "-" + filterId()) : all;
    }

    private boolean filters() {
        return room != null || facility != null || cause != null || !kinds.isEmpty() || held;
    }

    private UUID filterId() {
        return idOf(
                "only",
                String.valueOf(roomId),
                String.valueOf(facilityId),
                String.valueOf(causeWanted),
                kindsWanted,
                held);
    }

    private Path fileOfAll() {
        var name = Folders.fileName(service().address());
        return Folders.of(at())
                .state()
                .resolve("follow")
                .resolve(program == null ? name : name + "-" + idOf("exec", program, arguments));
    }
}
