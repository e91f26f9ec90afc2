package panelbook.cli.command;

import java.util.List;

/** A command that shows one thing. */
abstract class Showing<T extends Record> extends Action {

    abstract View<T> view();

    /** The thing. */
    abstract T thing();

    /** What stands below its fields on a terminal and in a pipe alike; nothing here. */
    List<String> below(T thing) {
        return List.of();
    }

    @Override
    int work() {
        printer().checkFields(view().type());
        var thing = thing();
        printer().one(view().type(), thing, view().fields());
        if (!printer().isJson()) {
            below(thing).forEach(printer()::line);
        }
        return 0;
    }
}
