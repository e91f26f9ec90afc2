package panelbook.cli.service;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import panelbook.cli.json.Json;
import panelbook.cli.json.Records;
import panelbook.cli.terminal.Failure;

/** Copies of room sheets on this machine, the last one of each room. Reading them needs neither service nor log-in. */
public final class SavedSheets {

    private final Path folder;

    /** Copies in the state folder. */
    public SavedSheets(Folders folders) {
        this.folder = folders.state().resolve("sheets");
    }

    /** Keeps a copy in place of the room's earlier one. */
    public void keep(SavedSheet copy) {
        write(copy, folder.resolve(copy.sheet().room().id() + ".json"));
    }

    /** Writes a copy to a file, to be carried elsewhere. */
    public static void write(SavedSheet copy, Path file) {
        try {
            OwnFiles.write(file, out -> Json.write(copy, out));
        } catch (IOException e) {
            throw Failure.failed("The copy cannot be written to " + file + " (" + e.getMessage() + ").", e);
        }
    }

    /** Reads a copy from a file. */
    public static SavedSheet read(Path file) {
        try (var in = Files.newInputStream(file)) {
            var reading = Records.read(SavedSheet.class, Json.parse(in));
            if (reading.value() != null) {
                return reading.value();
            }
            throw new IOException(reading.misfits().get(0).pointer() + " "
                    + reading.misfits().get(0).message());
        } catch (IOException e) {
            throw Failure.failed(
                    "There is no readable copy of a room sheet in " + file + " (" + e.getMessage()
                            + "). Save one: panelbook room sheet ROOM --save",
                    e);
        }
    }

    /**
     * The copy of the room that ROOM, FACILITY/ROOM or an id names; empty when there is none.
     *
     * @throws Failure when more than one fits
     */
    public Optional<SavedSheet> find(String reference) {
        var fits = readable().stream().filter(copy -> fits(copy, reference)).toList();
        if (fits.size() > 1) {
            throw Failure.failed("\"" + reference + "\" names more than one saved room sheet: "
                    + fits.stream()
                            .map(copy -> path(copy) + " (" + copy.sheet().room().id() + ")")
                            .collect(Collectors.joining(", "))
                    + ". Use the longer name or the id.");
        }
        return fits.stream().findFirst();
    }

    /** Paths of the rooms that there are copies of. */
    public List<String> rooms() {
        return readable().stream().map(SavedSheets::path).sorted().toList();
    }

    private static boolean fits(SavedSheet copy, String reference) {
        return copy.sheet().room().id().toString().equals(reference) || Paths.endsWith(path(copy), reference);
    }

    private static String path(SavedSheet copy) {
        return Paths.of(copy.sheet().room());
    }

    /** A file that cannot be read hides no other. */
    private List<SavedSheet> readable() {
        var copies = new ArrayList<SavedSheet>();
        if (!Files.isDirectory(folder)) {
            return copies;
        }
        try (var files = Files.newDirectoryStream(folder, "*.json")) {
            for (var file : files) {
                try {
                    copies.add(read(file));
                } catch (Failure unreadable) {
                    continue;
                }
            }
        } catch (IOException e) {
            throw Failure.failed("The saved room sheets in " + folder + " cannot be listed: " + e.getMessage(), e);
        }
        return copies;
    }
}
