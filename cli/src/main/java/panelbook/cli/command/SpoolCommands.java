package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.time.Instant;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.cli.spool.SpoolEntry;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on the spool. */
final class SpoolCommands {

    private SpoolCommands() {}

    /**
     * A spooled run without its readings.
     *
     * @param state waiting or set-aside
     * @param reason why it was set aside
     */
    record Row(
            String name,
            String state,
            String preset,
            @Nullable String purpose,
            @Nullable Instant takenAt,
            int readings,
            @Nullable String file,
            Instant spooledAt,
            String service,
            @Nullable String reason) {

        static Row of(SpoolEntry entry) {
            var run = entry.run();
            var state = entry.refusal() == null ? "waiting" : "set-aside";
            if (run == null) {
                return new Row(
                        entry.name(),
                        state,
                        "(unreadable)",
                        null,
                        null,
                        0,
                        null,
                        entry.spooledAt(),
                        entry.service(),
                        entry.refusal());
            }
            return new Row(
                    entry.name(),
                    state,
                    run.preset(),
                    run.purpose().toString(),
                    run.takenAt(),
                    run.readings().size(),
                    run.fileName(),
                    entry.spooledAt(),
                    entry.service(),
                    entry.refusal());
        }
    }

    private static final List<Column<Row>> COLUMNS = List.of(
            of("NAME", Row::name),
            of("STATE", Row::state),
            of("PRESET", Row::preset),
            of("PURPOSE", Row::purpose),
            of("TAKEN", Row::takenAt),
            of("READINGS", Row::readings),
            of("FILE", Row::file),
            of("SPOOLED", Row::spooledAt),
            of("SERVICE", Row::service),
            of("REASON", Row::reason));

    @Command(
            footer = "  panelbook spool list",
            description = {"", "In the order of sending; then what the service refused, with the reason."})
    static final class ListAll extends Action {
        @Override
        int work() {
            printer().checkFields(Row.class);
            connection().leaveSpool();
            var spool = connection().spool();
            var rows = Stream.concat(spool.waiting().stream(), spool.setAside().stream())
                    .map(Row::of)
                    .toList();
            printer().list(Row.class, rows, COLUMNS);
            if (rows.isEmpty() && at().personReadsErr()) {
                printer().say("The spool is empty: everything was sent.");
            }
            return 0;
        }
    }

    @Command(
            footer = {"  panelbook spool send", "  panelbook spool send --set-aside"},
            description = {
                "",
                "Sends in order, each run once in effect. Every other command that talks to the service does so, too. A run "
                        + "that the service refuses is set aside with the reason. Exit code 1 when runs are still waiting or were "
                        + "refused, 3 when all were sent and something is beyond tolerance."
            })
    static final class Send extends Action {
        @Option(names = "--set-aside", description = "Try again those that were set aside, in their old places.")
        boolean setAside;

        @Option(
                names = "--any-address",
                description = "Send also runs that were spooled for another address of the service.")
        boolean anyAddress;

        @Override
        int work() {
            printer().checkFields(Verdicts.Outcome.class);
            var service = connection().logIn().service();
            if (setAside) {
                connection().spool().takeBack();
            }
            var outcome = SpoolSending.send(connection(), anyAddress ? null : service);
            var code = ExitCode.DONE;
            for (var verdict : outcome.verdicts()) {
                code = Math.max(code, Verdicts.print(printer(), "spool", verdict));
            }
            SpoolSending.report(connection(), outcome.sending());
            if (outcome.sending().stopped() == null && outcome.sending().left() > 0) {
                printer()
                        .say(SpoolSending.runs(outcome.sending().left())
                                + " wait for another address. Next: panelbook spool list");
                return ExitCode.FAILED;
            }
            var incomplete = outcome.sending().stopped() != null
                    || !outcome.sending().setAside().isEmpty();
            if (!incomplete && outcome.sending().sent() == 0) {
                printer().say("The spool is empty.");
            }
            return incomplete ? ExitCode.FAILED : code;
        }
    }

    @Command(
            footer = "  panelbook spool delete 000000000012-9f3c01ab",
            description = {"", "For good. Only a run that was set aside can be deleted; one that waits is sent first."})
    static final class Delete extends Action {
        @Parameters(paramLabel = "NAME", description = "Its name; panelbook spool list shows it.")
        String name = "";

        @Override
        int work() {
            connection().leaveSpool();
            if (!name.matches("[0-9a-f-]+") || !connection().spool().delete(name)) {
                throw Failure.failed(
                        "No run of the name \"" + name + "\" is set aside. panelbook spool list shows them.");
            }
            printer().say("Deleted " + name + " from the spool.");
            return 0;
        }
    }
}
