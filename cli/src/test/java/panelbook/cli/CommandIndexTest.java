package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import panelbook.cli.command.Catalogue;
import panelbook.cli.command.CommandIndex;
import picocli.CommandLine;

/** The text from which commands are built says what their annotations say. */
class CommandIndexTest {

    private static final Path INDEX = Path.of("src/main/resources/panelbook/cli/command/commands.tsv");

    @TempDir
    Path home;

    @Test
    void theIndexIsWrittenFromTheAnnotations() throws Exception {
        var written = Files.exists(INDEX) ? Files.readString(INDEX) : "";
        var right = CommandIndex.write();
        if (!written.equals(right)) {
            Files.writeString(INDEX, right);
        }
        assertThat(written)
                .as(INDEX + " had fallen behind the annotations; it was written anew: build again and commit it")
                .isEqualTo(right);
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
