package panelbook.cli;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import panelbook.cli.command.Catalogue;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Surroundings;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.UnmatchedArgumentException;

/** The program. */
public final class Main {

    private static final String DEBUG = "--debug";

    static {
        // options are texts and whole numbers: looking for ways to read dates, files and the like takes time at every
        // start
        System.setProperty("picocli.converters.excludes", "java.*");
    }

    // these stand alone or have their value attached, so that they never take the next word for it
    private static final List<String> ALONE = List.of("--json", "--save", "--saved");

    private Main() {}

    /** Runs a command and exits with its code. */
    public static void main(String[] arguments) {
        System.exit(run(Surroundings.ofProcess(), arguments));
    }

    /** Runs a command; the exit code comes back. Never throws and never prints a stack trace unless asked to. */
    public static int run(Surroundings at, String... arguments) {
        var list = understood(arguments);
        try {
            var found = Catalogue.find(at, Catalogue.words(list));
            var rest = list.subList(found.words(), list.size());
            return prepared(at, found.line(), list.contains(DEBUG)).execute(rest.toArray(new String[0]));
        } catch (Exception | StackOverflowError | OutOfMemoryError e) {
            return failed(at, e, list.contains(DEBUG));
        } finally {
            at.out().flush();
            at.err().flush();
        }
    }

    private static CommandLine prepared(Surroundings at, CommandLine line, boolean debug) {
        line.setColorScheme(Catalogue.colours(at));
        line.setOut(new java.io.PrintWriter(at.out(), true));
        line.setErr(new java.io.PrintWriter(at.err(), true));
        line.setCaseInsensitiveEnumValuesAllowed(false);
        line.setAbbreviatedOptionsAllowed(false);
        line.setPosixClusteredShortOptionsAllowed(false);
        line.setUnmatchedOptionsArePositionalParams(false);
        line.setParameterExceptionHandler((e, args) -> misused(at, e));
        line.setExecutionExceptionHandler((e, where, parsed) -> failed(at, e, debug));
        line.setExitCodeExceptionMapper(e -> e instanceof Failure f ? f.exitCode() : ExitCode.FAILED);
        return line;
    }

    // "panelbook help run upload" is what some will type
    private static List<String> understood(String[] arguments) {
        var list = new ArrayList<>(Arrays.asList(arguments));
        if (!list.isEmpty() && list.get(0).equals("help")) {
            list.remove(0);
            list.add("--help");
        }
        if (list.isEmpty()) {
            list.add("--help");
        }
        var end = list.indexOf("--");
        for (var i = 0; i < (end < 0 ? list.size() : end); i++) {
            if (ALONE.contains(list.get(i))) {
                list.set(i, list.get(i) + "=");
            }
        }
        return list;
    }

    private static int misused(Surroundings at, ParameterException e) {
        var spec = e.getCommandLine().getCommandSpec();
        at.err()
                .println("panelbook: "
                        + (e instanceof UnmatchedArgumentException u
                                ? unmatched(u)
                                : sentence(String.valueOf(e.getMessage())))
                        + " Help: " + spec.qualifiedName(" ") + " --help");
        return ExitCode.USAGE;
    }

    private static String unmatched(UnmatchedArgumentException e) {
        var word = e.getUnmatched().get(0);
        var spec = e.getCommandLine().getCommandSpec();
        var isOption = word.startsWith("-");
        var known = isOption ? spec.optionsMap().keySet() : spec.subcommands().keySet();
        var what = isOption ? "option" : known.isEmpty() ? "further argument" : "command";
        return "There is no " + what + " \"" + word + "\" here." + Likeness.question(word, known);
    }

    private static int failed(Surroundings at, Throwable e, boolean debug) {
        if (e instanceof Failure failure) {
            at.err().println("panelbook: " + failure.text());
            failure.places().forEach(place -> at.err().println("  " + place));
        } else if (e instanceof OutOfMemoryError) {
            at.err()
                    .println(
                            "panelbook: there is not enough memory for this. Split the file, or give more: JAVA_OPTS=-Xmx2g panelbook …");
        } else {
            at.err()
                    .println("panelbook: this should not have happened (" + e
                            + "). Run it again with --debug and report what it prints.");
        }
        if (debug) {
            e.printStackTrace(at.err());
        }
        return e instanceof Failure failure ? failure.exitCode() : ExitCode.FAILED;
    }

    private static String sentence(String text) {
        var line = text.strip().replaceAll("\\s+", " ");
        return line.endsWith(".") || line.endsWith("?") ? line : line + ".";
    }
}
