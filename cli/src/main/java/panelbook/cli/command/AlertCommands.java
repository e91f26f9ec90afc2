package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.wire.Acknowledgement;
import panelbook.wire.AffectedFollower;
import panelbook.wire.Alert;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertEvent;
import panelbook.wire.AlertState;
import panelbook.wire.Closure;
import panelbook.wire.Decision;
import panelbook.wire.Finding;
import panelbook.wire.HeldAlert;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on alerts, but for following them. */
final class AlertCommands {

    private static final String ALERT = "Id of the alert; panelbook alert list shows them.";

    private AlertCommands() {}

    @Command(
            footer = {
                "  panelbook alert list",
                "  panelbook alert list --speaking",
                "  panelbook alert list --state closed --room \"Suite 1\""
            },
            description = {
                "",
                "What an alert explains it holds back: those stand below it, indented, and nobody is woken for them. When it is "
                        + "closed they speak for themselves again."
            })
    static final class ListAll extends Listing<Alert> {
        @Option(
                names = "--state",
                paramLabel = "STATE",
                description = "open, acknowledged or closed; may be given many times (default: open and acknowledged).")
        List<String> states = new ArrayList<>();

        @Option(names = "--room", paramLabel = "ROOM", description = "Only of this room.")
        @Nullable
        String room;

        @Option(names = "--facility", paramLabel = "FACILITY", description = "Only of this facility.")
        @Nullable
        String facility;

        @Option(
                names = "--cause",
                paramLabel = "CAUSE",
                description =
                        "moved, off-target, recalibration-due, certificate-expired, match-in-question or stepped.")
        @Nullable
        String cause;

        @Option(names = "--speaking", description = "Leave out those that another alert explains.")
        boolean speaking;

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        View<Alert> view() {
            return Views.alerts();
        }

        @Override
        List<Column<Alert>> columns() {
            return at().personReadsOut()
                    ? Views.alertsIndented()
                    : Views.alerts().columns();
        }

        @Override
        List<Alert> inOrder(List<Alert> alerts) {
            return HeldBack.belowTheirHolders(alerts);
        }

        @Override
        String path() {
            var path = Past.of(speaking ? with("/alerts", "held", "false") : "/alerts", asOf);
            for (var state : states) {
                path = with(
                        path,
                        "state",
                        Words.one(AlertState.class, "--state", state).toString());
            }
            if (cause != null) {
                path = with(
                        path,
                        "cause",
                        Words.one(AlertCause.class, "--cause", cause).toString());
            }
            if (room != null) {
                path = with(path, "room", names().room(room).id().toString());
            }
            return facility == null
                    ? path
                    : with(path, "facility", names().facility(facility).id().toString());
        }

        @Override
        String none() {
            return "No such alert.";
        }
    }

    @Command(footer = "  panelbook alert show 0f7e3a44-0000-4000-8000-6b1d2c3e4f50")
    static final class Show extends Action {
        @Parameters(paramLabel = "ALERT", description = ALERT)
        String alert = "";

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        int work() {
            printer().checkFields(Alert.class);
            var shown = service().get(Alert.class, Past.of("/alerts/" + Names.id("an alert", alert), asOf));
            printer().one(Alert.class, shown, Views.alerts().fields());
            if (!printer().isJson()) {
                parts(shown);
            }
            return 0;
        }

        private void parts(Alert shown) {
            if (!shown.followers().isEmpty()) {
                printer().list(AffectedFollower.class, shown.followers(), FOLLOWERS);
            }
            if (!shown.holds().isEmpty()) {
                printer().list(HeldAlert.class, shown.holds(), HELD);
            }
            if (!shown.findings().isEmpty()) {
                printer().list(Finding.class, shown.findings(), Views.findings().columns());
            }
            printer()
                    .list(AlertEvent.class, shown.history(), Views.alertEvents().columns());
        }

        private static final List<Column<HeldAlert>> HELD = List.of(
                of("HOLDS BACK", HeldAlert::state),
                of("CAUSE", HeldAlert::cause),
                of("SUBJECT", HeldAlert::subject),
                of("ID", HeldAlert::id),
                of("HEADLINE", HeldAlert::headline));

        private static final List<Column<AffectedFollower>> FOLLOWERS =
                List.of(of("TOUCHED", AffectedFollower::preset), of("WHAT HAPPENED", AffectedFollower::text));
    }

    @Command(footer = "  panelbook alert ack 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 --note \"visit on Thursday\"")
    static final class Acknowledge extends Action {
        @Parameters(paramLabel = "ALERT", description = ALERT)
        String alert = "";

        @Option(names = "--note", required = true, paramLabel = "TEXT", description = "What is being done about it.")
        String note = "";

        @Override
        int work() {
            var path = "/alerts/" + Names.id("an alert", alert) + "/acknowledgement";
            var taken =
                    service().post(Alert.class, path, new Acknowledgement(note)).value();
            return changed(
                    Views.alerts(),
                    taken,
                    "Acknowledged: " + taken.subject() + ": " + taken.headline(),
                    "it closes by a run that shows it gone, or by panelbook alert close " + taken.id()
                            + " --reason TEXT");
        }
    }

    @Command(
            footer = "  panelbook alert close 0f7e3a44-0000-4000-8000-6b1d2c3e4f50 --reason \"display retired\"",
            description = {
                "",
                "An alert closes by itself with the run that shows it gone. Close one by hand only when no such run will come."
            })
    static final class Close extends Action {
        @Parameters(paramLabel = "ALERT", description = ALERT)
        String alert = "";

        @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "Why no run is needed.")
        String reason = "";

        @Override
        int work() {
            var path = "/alerts/" + Names.id("an alert", alert) + "/closure";
            var closed = service().post(Alert.class, path, new Closure(reason)).value();
            return changed(Views.alerts(), closed, "Closed: " + closed.subject() + ": " + closed.headline(), "");
        }
    }

    @Command(
            footer = "  panelbook finding list \"Suite 1/Main/HDR\"",
            description = {"", "Exit code 3 when one of them is beyond tolerance."})
    static final class Findings extends Action {
        @Parameters(paramLabel = "PRESET", description = "ROOM/DISPLAY/PRESET or id.")
        String preset = "";

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        int work() {
            printer().checkFields(Finding.class);
            var path = Past.of("/presets/" + names().preset(preset).id() + "/findings", asOf);
            var findings = service().list(Finding.class, path);
            printer().list(Finding.class, findings, Views.findings().columns());
            if (findings.isEmpty()) {
                printer().say("Nothing was measured on this preset yet. Next: panelbook run upload FILE");
            }
            return findings.stream().anyMatch(f -> f.decision() == Decision.BEYOND) ? ExitCode.BEYOND : ExitCode.DONE;
        }
    }
}
