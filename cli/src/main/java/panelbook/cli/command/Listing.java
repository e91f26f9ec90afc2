package panelbook.cli.command;

import java.util.List;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.Failure;
import picocli.CommandLine.Option;

/** A command that lists things of one kind. */
abstract class Listing<T extends Record> extends Action {

    @Option(
            names = "--limit",
            paramLabel = "N",
            defaultValue = "200",
            description = "At most so many (default: ${DEFAULT-VALUE}).")
    int limit;

    abstract View<T> view();

    /** Path and query of the list; asked once. */
    abstract String path();

    /** The columns of the list. */
    List<Column<T>> columns() {
        return view().columns();
    }

    /** The order in which they are shown. */
    List<T> inOrder(List<T> items) {
        return items;
    }

    /** What a person hears when there is none. */
    abstract String none();

    @Override
    int work() {
        if (limit < 1) {
            throw Failure.usage("--limit must be 1 or more; it was " + limit + ".");
        }
        printer().checkFields(view().type());
        var page = service().pages(view().type(), path(), limit);
        printer().list(view().type(), inOrder(page.items()), columns());
        if (page.items().isEmpty() && at().personReadsErr()) {
            printer().say(none());
        } else if (page.next() != null) {
            printer().say("There are more; give a higher --limit than " + limit + " to see them.");
        }
        return 0;
    }

    static String with(String path, String name, String value) {
        return Service.with(path, name, value);
    }
}
