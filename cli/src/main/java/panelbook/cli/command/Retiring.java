package panelbook.cli.command;

import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.Retirement;
import picocli.CommandLine.Option;

/** A command that takes a thing out of use. Its record stays. */
abstract class Retiring<T extends Record> extends Action {

    @Option(names = "--reason", paramLabel = "TEXT", description = "Why; kept in the audit log.")
    @Nullable
    String reason;

    abstract View<T> view();

    /** The collection's path. */
    abstract String collection();

    abstract UUID thingId();

    abstract String name();

    @Override
    int work() {
        var path = collection() + "/" + thingId() + "/retirement";
        var retired =
                service().post(view().type(), path, new Retirement(reason)).value();
        return changed(view(), retired, "Retired " + name() + "; its record stays", "");
    }
}
