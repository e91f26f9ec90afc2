package panelbook.cli.command;

import picocli.CommandLine.Option;

/** A command that lists things that can be retired. */
abstract class ListingOfKept<T extends Record> extends Listing<T> {

    @Option(names = "--retired", description = "Show those taken out of use, too.")
    boolean retired;

    final String kept(String path) {
        return retired ? with(path, "retired", "true") : path;
    }
}
