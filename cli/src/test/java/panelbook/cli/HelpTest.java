package panelbook.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import panelbook.cli.command.Catalogue;
import picocli.CommandLine;

/** The help agrees with the commands. */
class HelpTest {

    @TempDir
    Path home;

    static Stream<List<String>> commands() {
        return Catalogue.entries().stream().map(Catalogue.Entry::path);
    }

    @ParameterizedTest
    @MethodSource("commands")
    void everyCommandExplainsItselfWithExamplesFirstAndExitCodesLast(List<String> path) {
        var desk = new Desk(home);
        var words = new ArrayList<>(path);
        words.add("--help");
        assertThat(desk.type(words.toArray(String[]::new))).isZero();
        assertThat(desk.err).isEmpty();
        var headline = desk.lines().get(0);
        assertThat(headline)
                .isEqualTo(Catalogue.entries().stream()
                        .filter(e -> e.path().equals(path))
                        .findFirst()
                        .orElseThrow()
                        .header());
        assertThat(desk.out.indexOf("Examples:")).isPositive().isLessThan(desk.out.indexOf("Usage: panelbook"));
        assertThat(desk.out).contains("  panelbook " + String.join(" ", path));
        assertThat(desk.out.substring(desk.out.indexOf("Exit codes:")))
                .contains("  0   done", "  1   failed", "  2   usage", "  3   done, and something is beyond");
        assertThat(desk.out).doesNotContain("\u001b");
    }

    /** An example with an option that does not exist, or without one that is needed, fails here. */
    @ParameterizedTest
    @MethodSource("commands")
    void everyExampleIsUnderstoodByTheCommandItself(List<String> path) {
        var desk = new Desk(home);
        var words = new ArrayList<>(path);
        words.add("--help");
        desk.type(words.toArray(String[]::new));
        var from = desk.lines().indexOf("Examples:") + 1;
        var examples = String.join(
                        "\n",
                        desk.lines()
                                .subList(
                                        from,
                                        desk.lines().indexOf("") < from
                                                ? indexOfBlank(desk.lines(), from)
                                                : desk.lines().indexOf("")))
                .replace("\\\n", " ");
        var line = Catalogue.wholeCommandLine(
                desk.surroundings(new java.io.ByteArrayOutputStream(), new java.io.ByteArrayOutputStream()));
        var understood = 0;
        for (var example : examples.lines().toList()) {
            var arguments = shellWords(example);
            var start = arguments.indexOf("panelbook");
            if (start < 0) {
                continue;
            }
            var rest = arguments.subList(start + 1, arguments.size());
            var result = line.parseArgs(rest.stream()
                    .map(a -> List.of("--json", "--save", "--saved").contains(a) ? a + "=" : a)
                    .toArray(String[]::new));
            assertThat(last(result).originalArgs()).as(example).isNotNull();
            understood++;
        }
        assertThat(understood).as("examples of %s", path).isPositive();
    }

    private static int indexOfBlank(List<String> lines, int from) {
        return from + lines.subList(from, lines.size()).indexOf("");
    }

    private static CommandLine.ParseResult last(CommandLine.ParseResult result) {
        return result.hasSubcommand() ? last(result.subcommand()) : result;
    }

    /** Words of a shell line up to a redirection, pipe or remark. */
    private static List<String> shellWords(String line) {
        var words = new ArrayList<String>();
        var matcher = java.util.regex.Pattern.compile("\"([^\"]*)\"|(\\S+)")
                .matcher(line.replaceAll("\\s{3,}\\(.*\\)$", "")
                        .replaceAll("^.*\\| (panelbook log-in)", "$1")
                        .replaceAll("(?<=\\S) [|>] .*$", "")
                        .replace("<(", "")
                        .replaceAll("\\)$", ""));
        while (matcher.find()) {
            words.add(matcher.group(1) != null ? matcher.group(1) : matcher.group(2));
        }
        return words;
    }

    @Test
    void theShortBuildOfACommandLineHoldsTheSameCommandAsTheWholeOne() {
        var desk = new Desk(home);
        for (var entry : Catalogue.entries()) {
            assertThat(desk.type(Stream.concat(Stream.of("help"), entry.path().stream())
                            .toArray(String[]::new)))
                    .as(entry.path().toString())
                    .isZero();
        }
    }

    @Test
    void helpIsShownInColourToAPersonUnlessNoColorIsSet() {
        var desk = new Desk(home);
        desk.terminal = true;
        desk.type("run", "--help");
        assertThat(desk.out).contains("\u001b[");
        desk.environment.put("NO_COLOR", "1");
        desk.type("run", "--help");
        assertThat(desk.out).doesNotContain("\u001b[");
    }

    @Test
    void whoeverTypesNothingSeesTheHelpAndWhoeverNamesAGroupAloneIsToldWhatToAdd() {
        var desk = new Desk(home);
        assertThat(desk.type()).isZero();
        assertThat(desk.out).contains("run upload", "Exit codes:");
        assertThat(desk.type("run")).isEqualTo(2);
        assertThat(desk.err).contains("Say what to do. panelbook run --help lists the commands.");
    }

    @Test
    void uploadAndMovesCarryTheUsualCautions() {
        var desk = new Desk(home);
        desk.type("run", "upload", "--help");
        assertThat(desk.out.replaceAll("\\s+", " "))
                .contains(
                        "static bright patches age emissive panels",
                        "Flashing patches can harm photosensitive viewers",
                        "Cabinets are opened by qualified service staff only",
                        "Local rules and the maker's instructions come first");
        desk.type("display", "move", "--help");
        assertThat(desk.out.replaceAll("\\s+", " ")).contains("qualified staff only");
    }

    @Test
    void theCompletionScriptKnowsEveryCommand() {
        var desk = new Desk(home);
        assertThat(desk.type("completion")).isZero();
        assertThat(desk.out)
                .startsWith("#!")
                .contains("readiness", "sign-off", "tolerance-set", "--minutes-since-power-on");
    }

    @Test
    void theVersionIsOneLine() {
        var desk = new Desk(home);
        assertThat(desk.type("--version")).isZero();
        assertThat(desk.lines()).hasSize(1).first().asString().startsWith("panelbook ");
    }
}
