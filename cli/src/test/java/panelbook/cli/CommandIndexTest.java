package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import panelbook.cli.command.Catalogue;
import panelbook.cli.command.CommandIndex;
import picocli.CommandLine;

/** The text from which commands are built says what their annotations say. */
class CommandIndexTest {

    private static final Path INDEX = Path.of("src/main/resources/panelbook/cli/command/commands");

    @TempDir
    Path home;

    @Test
    void theIndexIsWrittenFromTheAnnotations() throws Exception {
        var written = written();
        var right = CommandIndex.write();
        if (!written.equals(right)) {
            Files.createDirectories(INDEX);
            for (var stale : written.keySet()) {
                Files.delete(INDEX.resolve(stale));
            }
            for (var file : right.entrySet()) {
                Files.writeString(INDEX.resolve(file.getKey()), file.getValue());
            }
        }
        assertThat(written)
                .as(INDEX + " had fallen behind the annotations; it was written anew: build again and commit it")
                .isEqualTo(right);
    }

    private static Map<String, String> written() throws Exception {
        var written = new TreeMap<String, String>();
        if (Files.isDirectory(INDEX)) {
            try (var files = Files.list(INDEX)) {
                for (var file : files.toList()) {
                    written.put(file.getFileName().toString(), Files.readString(file));
                }
            }
        }
        return written;
    }

    @Test
    void aCommandBuiltFromTheIndexShowsTheSameHelpAsOneBuiltFromItsAnnotations() {
        var desk = new Desk(home);
        var at = desk.surroundings(new ByteArrayOutputStream(), new ByteArrayOutputStream());
        var whole = Catalogue.wholeCommandLine(at);
        for (var entry : Catalogue.entries()) {
            var quick = Catalogue.find(at, entry.path()).line();
            assertThat(quick.getUsageMessage(CommandLine.Help.Ansi.OFF))
                    .as(entry.path().toString())
                    .isEqualTo(usage(whole, entry));
        }
    }

    private static String usage(CommandLine line, Catalogue.Entry entry) {
        var at = line;
        for (var word : entry.path()) {
            at = at.getSubcommands().get(word);
        }
        return at.getUsageMessage(CommandLine.Help.Ansi.OFF);
    }
}
