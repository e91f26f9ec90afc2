package panelbook.cli.command;

import java.time.Duration;
import java.time.Instant;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Failure;
import panelbook.wire.QuietPeriod;
import panelbook.wire.QuietPeriodDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on quiet periods. */
final class QuietCommands {

    private QuietCommands() {}

    @Command(
            footer = {
                "  panelbook quiet add --room \"Suite 1\" --hours 8 --reason \"painters in the room\"",
                "  panelbook quiet add --display \"Suite 1/Client\" --until 2026-04-03T18:00:00+02:00 --reason \"panel away\""
            },
            description = {
                "",
                "Nobody is told of alerts there until it ends; what is still open then is told once. Alerts open and close as "
                        + "ever, and alert list shows them."
            })
    static final class Add extends Action {
        @Option(names = "--room", paramLabel = "ROOM", description = "The room; or --display.")
        @Nullable
        String room;

        @Option(names = "--display", paramLabel = "DISPLAY", description = "The display; or --room.")
        @Nullable
        String display;

        @Option(names = "--until", paramLabel = "TIME", description = "When it ends; or --hours.")
        @Nullable
        String until;

        @Option(names = "--hours", paramLabel = "N", description = "How long it lasts; or --until.")
        @Nullable
        Integer hours;

        @Option(names = "--from", paramLabel = "TIME", description = "When it begins (default: now).")
        @Nullable
        String from;

        @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "For those who wonder.")
        String reason = "";

        @Override
        int work() {
            if ((room == null) == (display == null)) {
                throw Failure.usage("Give either --room ROOM or --display DISPLAY.");
            }
            if ((until == null) == (hours == null)) {
                throw Failure.usage("Give either --until TIME or --hours N.");
            }
            printer().checkFields(QuietPeriod.class);
            var begins = from == null ? null : Words.time("--from", from);
            var ends = end(begins);
            var added = service()
                    .post(
                            QuietPeriod.class,
                            "/quiet-periods",
                            new QuietPeriodDraft(
                                    UUID.randomUUID(),
                                    room == null ? null : names().room(room).id(),
                                    display == null
                                            ? null
                                            : names().display(display).id(),
                                    reason,
                                    begins,
                                    ends));
            return added(
                    Views.quietPeriods(),
                    added,
                    "a quiet period of " + added.value().place() + " until "
                            + added.value().until(),
                    "to end it before its time, panelbook quiet end "
                            + added.value().id());
        }

        private Instant end(@Nullable Instant begins) {
            if (until != null) {
                return Words.timeOrEndOfDay("--until", until);
            }
            var start = begins == null ? at().clock().instant() : begins;
            return start.plus(Duration.ofHours(hours == null ? 0 : hours));
        }
    }

    @Command(footer = {"  panelbook quiet list", "  panelbook quiet list --room \"Suite 1\" --past"})
    static final class ListAll extends Action {
        @Option(names = "--room", paramLabel = "ROOM", description = "Only of this room.")
        @Nullable
        String room;

        @Option(names = "--display", paramLabel = "DISPLAY", description = "Only of this display.")
        @Nullable
        String display;

        @Option(names = "--past", description = "Also those that are over.")
        boolean past;

        @Override
        int work() {
            printer().checkFields(QuietPeriod.class);
            var path = "/quiet-periods";
            if (room != null) {
                path = Service.with(path, "room", names().room(room).id().toString());
            }
            if (display != null) {
                path = Service.with(
                        path, "display", names().display(display).id().toString());
            }
            var periods = service().list(QuietPeriod.class, past ? Service.with(path, "past", "true") : path);
            printer().list(QuietPeriod.class, periods, Views.quietPeriods().columns());
            if (periods.isEmpty() && at().personReadsErr()) {
                printer().say("No quiet period: people are told of everything.");
            }
            return 0;
        }
    }

    @Command(footer = "  panelbook quiet end 0f7e3a44-0000-4000-8000-6b1d2c3e4f50")
    static final class End extends Action {
        @Parameters(paramLabel = "QUIET", description = "Id of the quiet period; panelbook quiet list shows it.")
        String quiet = "";

        @Override
        int work() {
            var path = "/quiet-periods/" + Names.id("a quiet period", "quiet list", quiet) + "/end";
            var ended = service().post(QuietPeriod.class, path, Map.of()).value();
            return changed(
                    Views.quietPeriods(),
                    ended,
                    "The quiet period of " + ended.place() + " is over; what is still open is told now",
                    "");
        }
    }
}
