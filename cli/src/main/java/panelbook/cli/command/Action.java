package panelbook.cli.command;

import java.nio.charset.StandardCharsets;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.function.Function;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Refused;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Printer;
import panelbook.cli.terminal.Surroundings;
import panelbook.wire.files.RunIds;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.UsageMessageSpec;
import picocli.CommandLine.Option;

/** What all commands share: their surroundings, the connection, the printer, help. */
@Command(
        synopsisHeading = Action.SYNOPSIS_HEADING,
        optionListHeading = Action.OPTIONS_HEADING,
        parameterListHeading = Action.PARAMETERS_HEADING,
        sortOptions = false)
abstract class Action implements Callable<Integer> {

    static final String SYNOPSIS_HEADING = "%nUsage: ";
    static final String OPTIONS_HEADING = "%nOptions:%n";
    static final String PARAMETERS_HEADING = "%n";

    private static final UUID IDS = UUID.fromString("5b0b6a1e-6f0e-4c57-9a55-3d7f3c1a9a10");

    @Option(
            names = "--json",
            arity = "0..1",
            fallbackValue = "",
            paramLabel = "FIELD,…",
            description = "Print JSON: all fields, or with --json=FIELD,… those named.")
    @Nullable
    String json;

    @Option(names = "--debug", description = "When something fails, show where in the program.")
    boolean debug;

    @Option(
            names = {"-h", "--help"},
            usageHelp = true,
            description = "Show this help.")
    boolean help;

    private @Nullable Connection connection;

    /** The catalogue calls this before anything else. */
    void connect(Connection to) {
        connection = to;
    }

    /** Adds to the help what no annotation can say; nothing here. */
    void describe(UsageMessageSpec usage) {}

    @Override
    public final Integer call() {
        try {
            return work();
        } finally {
            connection().close();
        }
    }

    /** Does the work; the exit code comes back. */
    abstract int work();

    final Connection connection() {
        if (connection == null) {
            throw new IllegalStateException("a command was not connected");
        }
        return connection;
    }

    final Surroundings at() {
        return connection().at();
    }

    final Service service() {
        return connection().service();
    }

    final Names names() {
        return connection().names();
    }

    final Printer printer() {
        return new Printer(at(), json);
    }

    /** Prints what was added, says so, and says what to type next. */
    final <T extends Record> int added(View<T> view, Service.Added<T> added, String what, String next) {
        printer().list(view.type(), java.util.List.of(added.value()), view.columns());
        printer().say((added.created() ? "Added " : "There already, unchanged: ") + what + "." + next(next));
        return 0;
    }

    /** Prints what was changed, says so, and says what to type next. */
    final <T extends Record> int changed(View<T> view, T value, String what, String next) {
        printer().list(view.type(), java.util.List.of(value), view.columns());
        printer().say(what + "." + next(next));
        return 0;
    }

    private static String next(String next) {
        return next.isEmpty() ? "" : " Next: " + next;
    }

    /**
     * Adds something under an id made from what it is, so that the same command after a lost answer adds nothing twice.
     * When that id is taken by a thing that has since got another name, a fresh one is used.
     *
     * @param sameName whether a thing of that name is there
     */
    static <T> Service.Added<T> addOnce(UUID id, Function<UUID, Service.Added<T>> add, Supplier<Boolean> sameName) {
        try {
            return add.apply(id);
        } catch (Refused e) {
            if (e.status() != 409 || sameName.get()) {
                throw e;
            }
            return add.apply(UUID.randomUUID());
        }
    }

    /** Whether something can be found. */
    static boolean exists(Runnable find) {
        try {
            find.run();
            return true;
        } catch (Refused e) {
            throw e;
        } catch (Failure e) {
            return false;
        }
    }

    /** An id made from parts: the same parts give the same id. */
    static UUID idOf(Object... parts) {
        var text = new StringBuilder();
        for (var part : parts) {
            var piece = String.valueOf(part);
            text.append(piece.length()).append(':').append(piece);
        }
        return RunIds.nameBased(IDS, text.toString().getBytes(StandardCharsets.UTF_8));
    }

    /** The first that is there. */
    static <T> T or(@Nullable T asked, T otherwise) {
        return asked == null ? otherwise : asked;
    }

    /** The first that is not null; null when all are. */
    static @Nullable Object first(@Nullable Object... asked) {
        for (var option : asked) {
            if (option != null) {
                return option;
            }
        }
        return null;
    }

    /** Refuses an edit that changes nothing. */
    static void requireAny(@Nullable Object... asked) {
        if (first(asked) == null) {
            throw Failure.usage("Nothing to change was given. Name at least one option; --help lists them.");
        }
    }
}
