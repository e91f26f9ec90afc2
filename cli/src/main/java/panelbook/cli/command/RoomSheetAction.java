package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Folders;
import panelbook.cli.service.Paths;
import panelbook.cli.service.SavedSheet;
import panelbook.cli.service.SavedSheets;
import panelbook.cli.service.Service;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.ReadinessState;
import panelbook.wire.RoomSheet;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Shows a room sheet, fresh or from a copy. */
@Command(
        footer = {
            "  panelbook room sheet \"Suite 1\" --instrument \"Meter 1\"",
            "  panelbook room sheet \"Suite 1\" --save",
            "  panelbook room sheet \"Suite 1\" --saved",
            "  panelbook room sheet \"Suite 1\" --save=suite-1.json",
            "  panelbook room sheet --saved=suite-1.json"
        },
        description = {
            "",
            "Everything asked on arrival: hero and followers, targets, how they were left and how long ago, alerts, drift "
                    + "since, trims in force and how they came about, quirks, whether the meters' certificates hold. "
                    + "Exit code 3 when the room is not ready."
        })
final class RoomSheetAction extends Action {

    private static final List<Column<SheetText.Line>> COLUMNS = List.of(
            of("SECTION", SheetText.Line::section),
            of("SUBJECT", SheetText.Line::subject),
            of("WHAT", SheetText.Line::label),
            of("TEXT", SheetText.Line::text));

    @Parameters(paramLabel = "ROOM", arity = "0..1", description = "ROOM, FACILITY/ROOM or id.")
    @Nullable
    String room;

    @Option(
            names = "--instrument",
            paramLabel = "NAME",
            description = "A meter in hand, by name or id; may be given many times.")
    List<String> instruments = new ArrayList<>();

    @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
    @Nullable
    String asOf;

    @Option(
            names = "--save",
            arity = "0..1",
            fallbackValue = "",
            paramLabel = "FILE",
            description = "Keep a copy for --saved; with --save=FILE one in that file, too.")
    @Nullable
    String save;

    @Option(
            names = "--saved",
            arity = "0..1",
            fallbackValue = "",
            paramLabel = "FILE",
            description = "Show the copy kept, or with --saved=FILE that in a file; asks no service.")
    @Nullable
    String saved;

    @Override
    int work() {
        printer().checkFields(RoomSheet.class);
        return saved == null ? fresh() : offLine(saved);
    }

    private int fresh() {
        if (room == null) {
            throw Failure.usage("Name a room.");
        }
        var sheet = asked(room);
        print(sheet, SheetText.of(sheet));
        if (save != null) {
            keep(new SavedSheet(service().address(), at().clock().instant(), sheet), save);
        }
        return code(sheet);
    }

    private RoomSheet asked(String reference) {
        try {
            var path = Past.of("/rooms/" + names().room(reference).id() + "/sheet", asOf);
            for (var instrument : instruments) {
                path = Service.with(path, "instrument", instrumentId(instrument).toString());
            }
            return service().get(RoomSheet.class, path);
        } catch (ServiceAway e) {
            throw copies().find(reference)
                    .map(copy -> Failure.failed(
                            e.text() + " There is "
                                    + SheetText.age(copy, at().clock().instant()) + ": panelbook room sheet "
                                    + Words.quoted(reference) + " --saved",
                            e))
                    .orElse(e);
        }
    }

    private UUID instrumentId(String reference) {
        return names().instrument(reference).id();
    }

    private void keep(SavedSheet copy, String file) {
        copies().keep(copy);
        if (!file.isEmpty()) {
            SavedSheets.write(copy, at().file(file));
        }
        printer()
                .say("Saved" + (file.isEmpty() ? "" : ", also in " + file) + ". Off line: panelbook room sheet "
                        + Words.quoted(Paths.of(copy.sheet().room())) + " --saved");
    }

    private int offLine(String file) {
        if (save != null || !instruments.isEmpty()) {
            throw Failure.usage(
                    "--saved shows a copy as it is; --save and --instrument ask the service. Leave out one.");
        }
        var copy = copy(file);
        var now = at().clock().instant();
        if (printer().isJson()) {
            printer().say("This is " + SheetText.age(copy, now) + ".");
        }
        print(copy.sheet(), SheetText.of(copy, now));
        return code(copy.sheet());
    }

    private SavedSheet copy(String file) {
        if (!file.isEmpty()) {
            return SavedSheets.read(at().file(file));
        }
        if (room == null) {
            throw Failure.usage("Name a room, or a file by --saved=FILE.");
        }
        var reference = room;
        return copies().find(reference).orElseThrow(() -> missing(reference));
    }

    private Failure missing(String reference) {
        var rooms = copies().rooms();
        return Failure.failed("There is no saved sheet of a room \"" + reference + "\""
                + (rooms.isEmpty() ? "" : "; there are those of " + String.join(", ", rooms))
                + ". Save one while the service answers: panelbook room sheet " + Words.quoted(reference) + " --save");
    }

    private SavedSheets copies() {
        return new SavedSheets(Folders.of(at()));
    }

    private void print(RoomSheet sheet, List<SheetText.Line> lines) {
        if (printer().isJson()) {
            printer().one(RoomSheet.class, sheet, List.of());
        } else if (at().personReadsOut()) {
            SheetLayout.of(lines, at().width()).forEach(printer()::line);
        } else {
            printer().list(SheetText.Line.class, lines, COLUMNS);
        }
    }

    private static int code(RoomSheet sheet) {
        return sheet.readiness().state() == ReadinessState.NOT_READY ? ExitCode.BEYOND : ExitCode.DONE;
    }
}
