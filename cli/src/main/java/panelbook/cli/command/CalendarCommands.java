package panelbook.cli.command;

import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.terminal.Failure;
import panelbook.wire.CalendarFeed;
import panelbook.wire.CalendarFeedDraft;
import panelbook.wire.NewCalendarFeed;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on calendars of visits. */
final class CalendarCommands {

    private CalendarCommands() {}

    @Command(
            footer = {
                "  panelbook calendar open --calibrator Mara",
                "  panelbook calendar open --room \"Suite 1\" > address.txt"
            },
            description = {
                "",
                "Prints the address, which a calendar program subscribes to. Whoever knows it can read the calendar, and it is "
                        + "shown this once. The calendar holds the visits of the last 60 days and all that are planned; a room's begin "
                        + "with the warm-up."
            })
    static final class Open extends Action {
        @Option(names = "--calibrator", paramLabel = "NAME", description = "Visits of this calibrator: name or id.")
        @Nullable
        String calibrator;

        @Option(names = "--room", paramLabel = "ROOM", description = "Visits in this room: ROOM, FACILITY/ROOM or id.")
        @Nullable
        String room;

        @Override
        int work() {
            printer().checkFields(NewCalendarFeed.class);
            if ((calibrator == null) == (room == null)) {
                throw Failure.usage("Name a calibrator by --calibrator or a room by --room, one of them.");
            }
            var draft = new CalendarFeedDraft(
                    UUID.randomUUID(),
                    calibrator,
                    room == null ? null : names().room(room).id());
            var opened = service()
                    .post(NewCalendarFeed.class, "/calendar-feeds", draft)
                    .value();
            if (printer().isJson()) {
                printer().one(NewCalendarFeed.class, opened, List.of());
            } else {
                printer().line(service().address() + opened.path());
            }
            printer()
                    .say("Opened the calendar of "
                            + or(opened.feed().calibrator(), or(opened.feed().room(), ""))
                            + ". Its address is not shown again. To close it: panelbook calendar close "
                            + opened.feed().id());
            return 0;
        }
    }

    @Command(footer = {"  panelbook calendar list", "  panelbook calendar list --closed"})
    static final class ListAll extends Listing<CalendarFeed> {
        @Option(names = "--closed", description = "Show those that were closed, too.")
        boolean closed;

        @Override
        View<CalendarFeed> view() {
            return Views.calendarFeeds();
        }

        @Override
        String path() {
            return closed ? with("/calendar-feeds", "revoked", "true") : "/calendar-feeds";
        }

        @Override
        String none() {
            return "No calendar of visits is open. Next: panelbook calendar open --room ROOM";
        }
    }

    @Command(footer = "  panelbook calendar close 2b6f0d0e-0000-4000-8000-91c2b3a4d5e6")
    static final class Close extends Action {
        @Parameters(paramLabel = "CALENDAR", description = "Id of the calendar; panelbook calendar list shows it.")
        String calendar = "";

        @Override
        int work() {
            printer().checkFields(CalendarFeed.class);
            var id = Names.id("a calendar", calendar);
            var closed = service()
                    .post(CalendarFeed.class, "/calendar-feeds/" + id + "/revocation", Map.of())
                    .value();
            return changed(
                    Views.calendarFeeds(),
                    closed,
                    "Closed the calendar of " + or(closed.calibrator(), or(closed.room(), ""))
                            + "; its address no longer works",
                    "");
        }
    }
}
