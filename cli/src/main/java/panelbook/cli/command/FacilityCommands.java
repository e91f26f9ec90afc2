package panelbook.cli.command;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.book.BookFile;
import panelbook.cli.service.Refused;
import panelbook.cli.terminal.Failure;
import panelbook.wire.BookEntered;
import panelbook.wire.Facility;
import panelbook.wire.FacilityBook;
import panelbook.wire.FacilityDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on facilities. */
final class FacilityCommands {

    private static final String NAME = "Name or id of the facility.";
    private static final String ZONE = "IANA name of the time zone, such as Europe/Lisbon.";

    private FacilityCommands() {}

    @Command(footer = "  panelbook facility add North --time-zone Europe/Lisbon")
    static final class Add extends Action {
        @Parameters(paramLabel = "NAME", description = "Name; unique.")
        String name = "";

        @Option(names = "--time-zone", required = true, paramLabel = "ZONE", description = ZONE)
        String timeZone = "";

        @Override
        int work() {
            var zone = Words.zone("--time-zone", timeZone);
            var added = addOnce(
                    idOf("facility", name),
                    id -> service().post(Facility.class, "/facilities", new FacilityDraft(id, name, zone)),
                    () -> exists(() -> names().facility(name)));
            return added(
                    Views.facilities(),
                    added,
                    "facility " + name,
                    "panelbook room add NAME --facility " + Words.quoted(name));
        }
    }

    @Command(footer = {"  panelbook facility list", "  panelbook facility list --json=name,id"})
    static final class ListAll extends ListingOfKept<Facility> {
        @Override
        View<Facility> view() {
            return Views.facilities();
        }

        @Override
        String path() {
            return kept("/facilities");
        }

        @Override
        String none() {
            return "There is no facility yet. Next: panelbook facility enter FILE";
        }
    }

    @Command(footer = "  panelbook facility show North")
    static final class Show extends Showing<Facility> {
        @Parameters(paramLabel = "FACILITY", description = NAME)
        String facility = "";

        @Override
        View<Facility> view() {
            return Views.facilities();
        }

        @Override
        Facility thing() {
            return names().facility(facility);
        }
    }

    @Command(footer = "  panelbook facility edit North --time-zone Europe/Madrid")
    static final class Edit extends Action {
        @Parameters(paramLabel = "FACILITY", description = NAME)
        String facility = "";

        @Option(names = "--name", paramLabel = "NAME", description = "New name.")
        @Nullable
        String name;

        @Option(names = "--time-zone", paramLabel = "ZONE", description = ZONE)
        @Nullable
        String timeZone;

        @Override
        int work() {
            requireAny(name, timeZone);
            var zone = timeZone == null ? null : Words.zone("--time-zone", timeZone);
            var old = names().facility(facility);
            var draft = new FacilityDraft(old.id(), or(name, old.name()), or(zone, old.timeZone()));
            var edited = service().put(Facility.class, "/facilities/" + old.id(), draft, old.version());
            return changed(Views.facilities(), edited, "Changed facility " + edited.name(), "");
        }
    }

    @Command(footer = "  panelbook facility retire North --reason \"moved out\"")
    static final class Retire extends Retiring<Facility> {
        @Parameters(paramLabel = "FACILITY", description = NAME)
        String facility = "";

        @Override
        View<Facility> view() {
            return Views.facilities();
        }

        @Override
        String collection() {
            return "/facilities";
        }

        @Override
        UUID thingId() {
            return names().facility(facility).id();
        }

        @Override
        String name() {
            return "facility " + facility;
        }
    }

    @Command(
            footer = {
                "  panelbook facility enter north.yaml",
                "  panelbook facility enter displays.csv",
                "  panelbook facility export North | panelbook facility enter - --format yaml"
            },
            description = {
                "",
                "What the file names is added, or changed to what the file says; what it does not name stays. "
                        + "All of it is entered, or nothing. Entering the same file again changes nothing.",
                "",
                "A YAML file holds everything: tolerance sets, targets, instruments with certificates, rooms, displays "
                        + "and presets. See one with: panelbook facility export NAME",
                "",
                "A CSV file has one row per preset, with these columns in any order:",
                "  " + BookFile.CSV_COLUMNS,
                "A row without preset names a display, one without display names a room. Columns may be left out, but for "
                        + "facility, time_zone and room. It cannot hold targets, tolerance sets and instruments: those must be "
                        + "there already, by an earlier YAML file or by target add and its like."
            })
    static final class Enter extends Action {
        @Parameters(paramLabel = "FILE", description = "YAML or CSV file; - for standard input.")
        String file = "";

        @Option(
                names = "--format",
                paramLabel = "FORMAT",
                description = "yaml or csv (default: by the file's ending; yaml for standard input).")
        @Nullable
        String format;

        @Override
        int work() {
            var kind = kind(file, format);
            var book = BookFile.read(file, bytes(), kind);
            try {
                var entered =
                        service().post(BookEntered.class, "/books", book.book()).value();
                return report(entered);
            } catch (Refused e) {
                throw book.placed(e);
            }
        }

        private byte[] bytes() {
            try {
                return file.equals("-") ? at().in().readAllBytes() : Files.readAllBytes(at().file(file));
            } catch (IOException e) {
                throw Failure.failed("The file " + file + " cannot be read: " + FileReasons.of(e), e);
            }
        }

        private int report(BookEntered entered) {
            var printer = printer();
            if (printer.isJson()) {
                printer.one(BookEntered.class, entered, List.of());
            } else {
                entered.notes().forEach(printer::line);
            }
            printer.say("Entered " + file + ": " + entered.added() + " added, " + entered.changed() + " changed, "
                    + entered.unchanged() + " as they were. Next: panelbook run upload FILE…");
            return 0;
        }
    }

    private static BookFile.Kind kind(String file, @Nullable String format) {
        if (format != null) {
            return Words.one(BookFile.Kind.class, "--format", format.toLowerCase(Locale.ROOT));
        }
        return file.toLowerCase(Locale.ROOT).endsWith(".csv") ? BookFile.Kind.CSV : BookFile.Kind.YAML;
    }

    @Command(
            footer = {
                "  panelbook facility export North > north.yaml",
                "  panelbook facility export North --format csv > displays.csv"
            },
            description = {
                "",
                "Writes the facility to standard output, in a form that facility enter takes to the same. "
                        + "The CSV form holds rooms, displays and presets only."
            })
    static final class Export extends Action {
        @Parameters(paramLabel = "FACILITY", description = NAME)
        String facility = "";

        @Option(
                names = "--format",
                paramLabel = "FORMAT",
                defaultValue = "yaml",
                description = "yaml or csv (default: ${DEFAULT-VALUE}).")
        String format = "";

        @Override
        int work() {
            var kind = kind("", format);
            var id = names().facility(facility).id();
            var book = service().get(FacilityBook.class, "/facilities/" + id + "/book");
            if (json != null) {
                printer().printJson(book);
                return 0;
            }
            at().out().print(BookFile.write(book, kind));
            at().out().flush();
            return 0;
        }
    }
}
