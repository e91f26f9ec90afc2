package panelbook.cli.command;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Refused;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Booking;
import panelbook.wire.BookingSource;
import panelbook.wire.BookingSourceDraft;
import panelbook.wire.FieldProblem;
import panelbook.wire.Retirement;
import panelbook.wire.Room;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on bookings of rooms. */
final class BookingCommands {

    private static final String ROOM = "ROOM, FACILITY/ROOM or id.";

    private BookingCommands() {}

    private static List<BookingSource> sources(Service service, Room room) {
        return service.list(BookingSource.class, "/rooms/" + room.id() + "/booking-sources");
    }

    private static @Nullable BookingSource named(Service service, Room room, String name) {
        return sources(service, room).stream()
                .filter(source -> source.name().equals(name))
                .findFirst()
                .orElse(null);
    }

    @Command(
            footer = {
                "  panelbook booking read \"Suite 1\" suite-1.ics",
                "  panelbook booking read \"Suite 1\" export.ics --name \"front desk\""
            },
            description = {
                "",
                "Reads an iCalendar file (RFC 5545) in place of what the calendar of this name said before; the same file again "
                        + "changes nothing, and a file that cannot be read is refused with its lines. Times without a zone are those of "
                        + "the room; what is cancelled or transparent takes no time. Bookings are kept from a month back to 400 days "
                        + "ahead: read the file again before that."
            })
    static final class Read extends Action {
        @Parameters(index = "0", paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Parameters(index = "1", paramLabel = "FILE", description = "iCalendar file.")
        String file = "";

        @Option(
                names = "--name",
                paramLabel = "NAME",
                description = "Name of the calendar (default: that of the file).")
        @Nullable
        String name;

        @Override
        int work() {
            printer().checkFields(BookingSource.class);
            var text = text();
            var of = names().room(room);
            var source = source(of, or(name, stem()));
            var read = send(source, text);
            return changed(
                    Views.bookingSources(),
                    read,
                    "Read " + read.bookings() + " bookings of " + Paths.of(of),
                    "panelbook booking list " + Words.quoted(room));
        }

        private byte[] text() {
            try {
                return Files.readAllBytes(at().file(file));
            } catch (IOException e) {
                throw Failure.failed(file + ": " + FileReasons.of(e), e);
            }
        }

        private String stem() {
            var last = String.valueOf(Path.of(file).getFileName());
            return last.endsWith(".ics") ? last.substring(0, last.length() - ".ics".length()) : last;
        }

        private UUID source(Room of, String called) {
            var there = named(service(), of, called);
            if (there != null) {
                return there.id();
            }
            var draft = new BookingSourceDraft(UUID.randomUUID(), called, null);
            return service()
                    .post(BookingSource.class, "/rooms/" + of.id() + "/booking-sources", draft)
                    .value()
                    .id();
        }

        private BookingSource send(UUID source, byte[] text) {
            try {
                return service()
                        .putText(
                                BookingSource.class, "/booking-sources/" + source + "/calendar", "text/calendar", text);
            } catch (Refused e) {
                @Nullable List<FieldProblem> errors = e.problem().errors();
                if (errors == null || errors.isEmpty()) {
                    throw e;
                }
                throw Failure.failedAt(
                        file
                                + " cannot be read; the bookings stay as they were. Write it anew with a calendar program.",
                        errors.stream()
                                .map(error -> file + ", " + error.pointer() + ": " + error.detail())
                                .toList());
            }
        }
    }

    @Command(
            footer = {
                "  panelbook booking follow \"Suite 1\" https://calendar.example/suite-1.ics",
                "  panelbook booking follow \"Suite 1\" --address-file address.txt --name \"front desk\""
            },
            description = {
                "",
                "The service fetches the calendar now and every quarter of an hour. Whoever knows the address can often read the "
                        + "calendar: give it in a file where others see your command line. It is not shown again. Exit code 1 when "
                        + "the calendar was not read now; the service tries on."
            })
    static final class Follow extends Action {
        @Parameters(index = "0", paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Parameters(
                index = "1",
                arity = "0..1",
                paramLabel = "URL",
                description = "http or https address of the calendar.")
        @Nullable
        String url;

        @Option(
                names = "--address-file",
                paramLabel = "FILE",
                description = "File whose first line is the address; - for standard input.")
        @Nullable
        String addressFile;

        @Option(
                names = "--name",
                paramLabel = "NAME",
                defaultValue = "calendar",
                description = "Name of the calendar (default: ${DEFAULT-VALUE}).")
        String name = "";

        @Override
        int work() {
            printer().checkFields(BookingSource.class);
            var address = address();
            var of = names().room(room);
            var id = idOf("booking source", of.id(), name, address);
            var added = add(of, id, address);
            if (added.value().retiredAt() != null) { // it was forgotten since
                added = add(of, UUID.randomUUID(), address);
            }
            added(
                    Views.bookingSources(),
                    added,
                    "the calendar \"" + name + "\" of " + Paths.of(of),
                    "panelbook booking list " + Words.quoted(room));
            var error = added.value().error();
            if (error != null) {
                throw Failure.failed("It could not be read yet: " + error);
            }
            return 0;
        }

        private Service.Added<BookingSource> add(Room of, UUID id, String address) {
            return service()
                    .post(
                            BookingSource.class,
                            "/rooms/" + of.id() + "/booking-sources",
                            new BookingSourceDraft(id, name, address));
        }

        private String address() {
            if ((url == null) == (addressFile == null)) {
                throw Failure.usage("Give the address of the calendar, or --address-file with a file that holds it.");
            }
            return url != null ? url : firstLine(String.valueOf(addressFile));
        }

        private String firstLine(String from) {
            try (var reader = from.equals("-")
                    ? new BufferedReader(new InputStreamReader(at().in(), StandardCharsets.UTF_8))
                    : Files.newBufferedReader(at().file(from))) {
                var line = reader.readLine();
                if (line == null || line.isBlank()) {
                    throw Failure.failed(from + " holds no address in its first line.");
                }
                return line.strip();
            } catch (IOException e) {
                throw Failure.failed(from + ": " + FileReasons.of(e), e);
            }
        }
    }

    @Command(
            footer = {
                "  panelbook booking list \"Suite 1\"",
                "  panelbook booking list \"Suite 1\" --from 2026-03-02T00:00:00Z --until 2026-03-31"
            },
            description = {"", "What a booking is called is shown to engineers only."})
    static final class ListAll extends Action {
        @Parameters(paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Option(names = "--from", paramLabel = "TIME", description = "From then on (default: now).")
        @Nullable
        String from;

        @Option(
                names = "--until",
                paramLabel = "TIME",
                description = "Last day, or a time (default: four weeks after --from).")
        @Nullable
        String until;

        @Override
        int work() {
            printer().checkFields(Booking.class);
            var path = "/rooms/" + names().room(room).id() + "/bookings";
            if (from != null) {
                path = Service.with(path, "from", Words.time("--from", from).toString());
            }
            if (until != null) {
                path = Service.with(
                        path, "until", Words.timeOrEndOfDay("--until", until).toString());
            }
            var bookings = service().list(Booking.class, path);
            printer().list(Booking.class, bookings, Views.bookings().columns());
            if (bookings.isEmpty() && at().personReadsErr()) {
                printer().say("It is not booked then, as far as calendars say. Next: panelbook booking sources");
            }
            return 0;
        }
    }

    @Command(footer = {"  panelbook booking sources", "  panelbook booking sources --room \"Suite 1\""})
    static final class Sources extends ListingOfKept<BookingSource> {
        @Option(names = "--room", paramLabel = "ROOM", description = "Only this room: ROOM, FACILITY/ROOM or id.")
        @Nullable
        String room;

        @Option(names = "--facility", paramLabel = "FACILITY", description = "Only this facility.")
        @Nullable
        String facility;

        @Override
        View<BookingSource> view() {
            return Views.bookingSources();
        }

        @Override
        String path() {
            var path = kept("/booking-sources");
            if (room != null) {
                path = with(path, "room", names().room(room).id().toString());
            }
            return facility == null
                    ? path
                    : with(path, "facility", names().facility(facility).id().toString());
        }

        @Override
        String none() {
            return "No calendar tells when rooms are booked. Next: panelbook booking read ROOM FILE";
        }
    }

    @Command(
            footer = "  panelbook booking forget \"Suite 1\" \"front desk\"",
            description = {"", "What it says blocks the room no longer, and its address is forgotten."})
    static final class Forget extends Action {
        @Parameters(index = "0", paramLabel = "ROOM", description = ROOM)
        String room = "";

        @Parameters(
                index = "1",
                paramLabel = "NAME",
                description = "Name of the calendar; panelbook booking sources shows it.")
        String name = "";

        @Override
        int work() {
            printer().checkFields(BookingSource.class);
            var of = names().room(room);
            var source = named(service(), of, name);
            if (source == null) {
                throw Failure.failed("Room \"" + room + "\" has no calendar \"" + name + "\" in use. "
                        + "See them: panelbook booking sources --room " + Words.quoted(room));
            }
            var forgotten = service()
                    .post(BookingSource.class, "/booking-sources/" + source.id() + "/retirement", new Retirement(null))
                    .value();
            return changed(
                    Views.bookingSources(), forgotten, "Forgot the calendar \"" + name + "\" of " + Paths.of(of), "");
        }
    }
}
