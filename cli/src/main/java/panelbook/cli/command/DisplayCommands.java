package panelbook.cli.command;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Display;
import panelbook.wire.DisplayDraft;
import panelbook.wire.MoveDraft;
import panelbook.wire.PanelHours;
import panelbook.wire.PanelHoursDraft;
import panelbook.wire.Stay;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on displays. */
final class DisplayCommands {

    private static final String DISPLAY = "DISPLAY, ROOM/DISPLAY, FACILITY/ROOM/DISPLAY or id.";
    private static final String MODEL = "What the maker calls it.";
    private static final String PANEL =
            "How the picture is made, such as oled, lcd, dual-layer lcd, led wall, projector.";

    private static final String NOTES =
            "What it is, in free words. What the next visitor must know of its picture: display quirk add.";

    private DisplayCommands() {}

    @Command(
            footer = {
                "  panelbook display add Main --room \"Suite 1\" --model M-31 --panel oled",
                "  panelbook display add Spare --facility North --model M-31 --panel oled"
            })
    static final class Add extends Action {
        @Parameters(paramLabel = "NAME", description = "Name; unique in the facility.")
        String name = "";

        @Option(names = "--room", paramLabel = "ROOM", description = "Room it stands in: ROOM, FACILITY/ROOM or id.")
        @Nullable
        String room;

        @Option(names = "--facility", paramLabel = "FACILITY", description = "Its facility, when it stands in no room.")
        @Nullable
        String facility;

        @Option(names = "--model", required = true, paramLabel = "MODEL", description = MODEL)
        String model = "";

        @Option(names = "--panel", required = true, paramLabel = "KIND", description = PANEL)
        String panel = "";

        @Option(names = "--serial-number", paramLabel = "NUMBER", description = "Serial number.")
        @Nullable
        String serialNumber;

        @Option(names = "--notes", paramLabel = "TEXT", description = NOTES)
        @Nullable
        String notes;

        @Override
        int work() {
            if (room == null && facility == null) {
                throw Failure.usage(
                        "Name the display's room by --room, or its facility by --facility when it stands in none.");
            }
            @Nullable UUID roomId = null;
            UUID facilityId;
            if (room != null) {
                var in = names().room(facility == null ? room : facility + "/" + room);
                roomId = in.id();
                facilityId = in.facilityId();
            } else {
                facilityId = names().facility(or(facility, "")).id();
            }
            return add(facilityId, roomId);
        }

        private int add(UUID facilityId, @Nullable UUID roomId) {
            var added = addOnce(
                    idOf("display", facilityId, name),
                    id -> service()
                            .post(
                                    Display.class,
                                    "/displays",
                                    new DisplayDraft(id, facilityId, roomId, name, model, panel, serialNumber, notes)),
                    () -> !service()
                            .pages(
                                    Display.class,
                                    Service.with(
                                            Service.with("/displays", "facility", facilityId.toString()), "name", name),
                                    1)
                            .items()
                            .isEmpty());
            var path = Paths.of(added.value());
            return added(
                    Views.displays(),
                    added,
                    "display " + path,
                    "panelbook preset add NAME --display " + Words.quoted(path) + " --target TARGET");
        }
    }

    @Command(footer = {"  panelbook display list", "  panelbook display list --room \"Suite 1\""})
    static final class ListAll extends ListingOfKept<Display> {
        @Option(names = "--room", paramLabel = "ROOM", description = "Only displays that stand in this room.")
        @Nullable
        String room;

        @Option(names = "--facility", paramLabel = "FACILITY", description = "Only displays of this facility.")
        @Nullable
        String facility;

        @Override
        View<Display> view() {
            return Views.displays();
        }

        @Override
        String path() {
            var path = kept("/displays");
            if (room != null) {
                path = with(path, "room", names().room(room).id().toString());
            }
            return facility == null
                    ? path
                    : with(path, "facility", names().facility(facility).id().toString());
        }

        @Override
        String none() {
            return "There is no display. Next: panelbook display add NAME --room ROOM --model MODEL --panel KIND";
        }
    }

    @Command(footer = "  panelbook display show \"Suite 1/Main\"")
    static final class Show extends Showing<Display> {
        @Parameters(paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Override
        View<Display> view() {
            return Views.displays();
        }

        @Override
        Display thing() {
            return names().display(display);
        }

        @Override
        List<String> below(Display thing) {
            return service().list(Stay.class, "/displays/" + thing.id() + "/stays").stream()
                    .map(Show::line)
                    .toList();
        }

        private static String line(Stay stay) {
            var until = stay.to() == null ? "until now" : "until " + stay.to();
            var reason = stay.reason() == null ? "" : " (" + stay.reason() + ")";
            return "STAY\t" + stay.room() + " from " + stay.from() + " " + until + ", moved by " + stay.movedBy()
                    + reason;
        }
    }

    @Command(footer = "  panelbook display edit Main --notes \"fan audible above 800 cd/m2\"")
    static final class Edit extends Action {
        @Parameters(paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Option(names = "--name", paramLabel = "NAME", description = "New name.")
        @Nullable
        String name;

        @Option(names = "--model", paramLabel = "MODEL", description = MODEL)
        @Nullable
        String model;

        @Option(names = "--panel", paramLabel = "KIND", description = PANEL)
        @Nullable
        String panel;

        @Option(names = "--serial-number", paramLabel = "NUMBER", description = "Serial number.")
        @Nullable
        String serialNumber;

        @Option(names = "--notes", paramLabel = "TEXT", description = NOTES)
        @Nullable
        String notes;

        @Override
        int work() {
            requireAny(name, model, panel, serialNumber, notes);
            var old = names().display(display);
            var draft = new DisplayDraft(
                    old.id(),
                    old.facilityId(),
                    old.roomId(),
                    or(name, old.name()),
                    or(model, old.model()),
                    or(panel, old.panelTechnology()),
                    serialNumber == null ? old.serialNumber() : serialNumber,
                    notes == null ? old.notes() : notes);
            var edited = service().put(Display.class, "/displays/" + old.id(), draft, old.version());
            return changed(Views.displays(), edited, "Changed display " + Paths.of(edited), "");
        }
    }

    @Command(
            footer = {
                "  panelbook display move Client --to \"Suite 2\" --reason \"swap for repair\"",
                "  panelbook display move Client --to-store"
            },
            description = {
                "",
                "Moves are kept. Cabinets are opened and heavy displays moved by qualified staff only; local rules and the "
                        + "maker's instructions come first."
            })
    static final class Move extends Action {
        @Parameters(paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Option(names = "--to", paramLabel = "ROOM", description = "Where to: ROOM, FACILITY/ROOM or id.")
        @Nullable
        String to;

        @Option(names = "--to-store", description = "Out of every room.")
        boolean toStore;

        @Option(names = "--at", paramLabel = "TIME", description = "When, such as 2026-03-31T08:00:00Z (default: now).")
        @Nullable
        String when;

        @Option(names = "--reason", paramLabel = "TEXT", description = "Why.")
        @Nullable
        String reason;

        @Override
        int work() {
            if ((to == null) != toStore) {
                throw Failure.usage("Say where to: either --to ROOM or --to-store.");
            }
            var moment = when == null ? null : Words.time("--at", when);
            var moved = names().display(display);
            var room = to == null ? null : names().room(to);
            var roomId = room == null ? null : room.id();
            // without a time the id holds where it stood, so that a repeat after a lost answer is the same move
            var id = moment == null
                    ? idOf("move", moved.id(), moved.version(), roomId == null ? "" : roomId)
                    : idOf("move", moved.id(), moment, roomId == null ? "" : roomId);
            var answer = service()
                    .post(
                            Display.class,
                            "/displays/" + moved.id() + "/moves",
                            new MoveDraft(id, roomId, moment, reason))
                    .value();
            return changed(
                    Views.displays(),
                    answer,
                    "Moved display " + moved.name() + (room == null ? " out of every room" : " to " + Paths.of(room)),
                    "panelbook room hero list ROOM shows whether a hero is missing");
        }
    }

    @Command(footer = "  panelbook display retire Client --reason \"panel broken\"")
    static final class Retire extends Retiring<Display> {
        @Parameters(paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Override
        View<Display> view() {
            return Views.displays();
        }

        @Override
        String collection() {
            return "/displays";
        }

        @Override
        UUID thingId() {
            return names().display(display).id();
        }

        @Override
        String name() {
            return "display " + display;
        }
    }

    @Command(footer = "  panelbook display hours add Main 10250 --note \"read from the menu\"")
    static final class HoursAdd extends Action {
        @Parameters(index = "0", paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Parameters(index = "1", paramLabel = "HOURS", description = "The counter, h.")
        String hours = "";

        @Option(names = "--at", paramLabel = "TIME", description = "When it was read (default: now).")
        @Nullable
        String when;

        @Option(names = "--note", paramLabel = "TEXT", description = "A note, such as: panel swapped.")
        @Nullable
        String note;

        @Override
        int work() {
            var counter = Words.number("HOURS", hours);
            var moment = when == null ? null : Words.time("--at", when);
            var of = names().display(display);
            var entered = service()
                    .post(
                            PanelHours.class,
                            "/displays/" + of.id() + "/panel-hours",
                            new PanelHoursDraft(counter, moment, note))
                    .value();
            return changed(
                    Views.panelHours(), entered, "Entered " + Words.number(counter) + " h for " + Paths.of(of), "");
        }
    }

    @Command(footer = "  panelbook display hours list Main")
    static final class HoursList extends Listing<PanelHours> {
        @Parameters(paramLabel = "DISPLAY", description = DISPLAY)
        String display = "";

        @Override
        View<PanelHours> view() {
            return Views.panelHours();
        }

        @Override
        String path() {
            return "/displays/" + names().display(display).id() + "/panel-hours";
        }

        @Override
        String none() {
            return "No panel hours yet. They come with runs, or by: panelbook display hours add DISPLAY HOURS";
        }
    }
}
