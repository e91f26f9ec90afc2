package panelbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.spool.PendingRun;
import panelbook.cli.spool.Spool;
import panelbook.cli.terminal.Failure;
import panelbook.wire.RunVerdict;

/** Sends what waits in the spool, names resolved where they were not. */
final class SpoolSending {

    /**
     * What was sent.
     *
     * @param verdicts answers, in the order sent
     */
    record Outcome(Spool.Sending sending, List<RunVerdict> verdicts) {}

    private SpoolSending() {}

    /** Sends on the way of another command: says on the error stream what happened and lets nothing stand in its way. */
    static void onTheSide(Connection connection) {
        var spool = connection.spool();
        if (spool.isEmpty()) {
            return;
        }
        try {
            var outcome = send(connection, connection.logIn().service());
            report(connection, outcome.sending());
        } catch (Failure e) {
            connection.at().err().println("panelbook: spooled runs were not sent: " + e.text());
        }
    }

    /** Sends all that waits for {@code service}, or all when null. */
    static Outcome send(Connection connection, @Nullable String service) {
        connection.leaveSpool();
        var verdicts = new ArrayList<RunVerdict>();
        var sending = connection.spool().send(service, (entry, run) -> verdicts.add(sendOne(connection, run)));
        return new Outcome(sending, verdicts);
    }

    static RunVerdict sendOne(Connection connection, PendingRun run) {
        var preset = presetId(connection.names(), run);
        var instrument = instrumentId(connection.names(), run);
        return connection
                .plainService()
                .post(RunVerdict.class, "/runs", run.upload(preset, instrument))
                .value();
    }

    private static UUID presetId(Names names, PendingRun run) {
        var known = run.presetId();
        return known != null ? known : names.preset(run.preset()).id();
    }

    private static UUID instrumentId(Names names, PendingRun run) {
        var known = run.instrumentId();
        return known != null ? known : names.instrument(run.instrument()).id();
    }

    /** Says what a sending did, in at most a line per kind. */
    static void report(Connection connection, Spool.Sending sending) {
        var err = connection.at().err();
        if (sending.sent() > 0) {
            err.println("Sent " + runs(sending.sent()) + " from the spool.");
        }
        for (var refused : sending.setAside()) {
            err.println("panelbook: the service refused spooled run " + refused.name() + ": " + refused.refusal()
                    + " It was set aside; see panelbook spool list");
        }
        var stopped = sending.stopped();
        if (stopped != null) {
            err.println("panelbook: " + runs(sending.left()) + " still in the spool: " + stopped.text());
        }
    }

    static String runs(int count) {
        return count == 1 ? "1 run" : count + " runs";
    }
}
