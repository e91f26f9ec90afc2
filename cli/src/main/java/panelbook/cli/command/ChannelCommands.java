package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertNotification;
import panelbook.wire.Channel;
import panelbook.wire.ChannelDraft;
import panelbook.wire.ChannelKind;
import panelbook.wire.ChannelTrial;
import panelbook.wire.Delivery;
import panelbook.wire.NewChannel;
import panelbook.wire.NotificationSettings;
import panelbook.wire.NotificationSettingsDraft;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on channels, and on when people are told. */
final class ChannelCommands {

    private static final String CHANNEL = "Name or id of the channel.";
    private static final String MAIL = "Address to mail to; may be given many times.";
    private static final String URL = "Where a program takes signed POSTs, http or https.";
    private static final String CAUSE = "Only alerts with this cause; may be given many times (default: all).";

    private ChannelCommands() {}

    /** What a channel can be added with and changed to. */
    abstract static class Wishing extends Action {
        @Option(names = "--mail", paramLabel = "ADDRESS", description = MAIL)
        List<String> mail = new ArrayList<>();

        @Option(names = "--url", paramLabel = "URL", description = URL)
        @Nullable
        String url;

        @Option(names = "--cause", paramLabel = "CAUSE", description = CAUSE)
        List<String> causes = new ArrayList<>();

        @Option(names = "--escalations-only", description = "Only alerts that nobody acknowledged in time.")
        boolean escalationsOnly;

        final List<AlertCause> causesWanted() {
            return causes.stream()
                    .map(word -> Words.one(AlertCause.class, "--cause", word))
                    .distinct()
                    .toList();
        }
    }

    @Command(
            footer = {
                "  panelbook channel add Night --mail night@facility.example --facility North",
                "  panelbook channel add Board --url https://board.example/alerts --secret-file board.secret",
                "  panelbook channel add Chief --mail chief@facility.example --escalations-only"
            },
            description = {
                "",
                "Mail needs a mail server in the service's settings. A program at a URL gets a secret, by which it tells that "
                        + "a message is the service's; it is shown this once: on standard output, or written to a file that only you "
                        + "may read."
            })
    static final class Add extends Wishing {
        @Parameters(paramLabel = "NAME", description = "Name; unique.")
        String name = "";

        @Option(
                names = "--facility",
                paramLabel = "FACILITY",
                description = "Only alerts of this facility (default: all).")
        @Nullable
        String facility;

        @Option(
                names = "--secret-file",
                paramLabel = "FILE",
                description = "Write the secret of a webhook here instead of standard output.")
        @Nullable
        String secretFile;

        @Override
        int work() {
            if (mail.isEmpty() == (url == null)) {
                throw Failure.usage("Give either --mail ADDRESS or --url URL.");
            }
            printer().checkFields(NewChannel.class);
            var facilityId =
                    facility == null ? null : names().facility(facility).id();
            var wanted = causesWanted();
            var added = addOnce(
                    idOf("channel", name),
                    id -> service()
                            .post(
                                    NewChannel.class,
                                    "/channels",
                                    new ChannelDraft(
                                            id,
                                            name,
                                            url == null ? ChannelKind.EMAIL : ChannelKind.WEBHOOK,
                                            facilityId,
                                            wanted,
                                            escalationsOnly,
                                            mail,
                                            url)),
                    () -> exists(() -> names().channel(name)));
            var secret = added.value().secret();
            if (secret != null) {
                new SecretHanding(at(), printer()).hand(NewChannel.class, added.value(), secret, secretFile);
            } else if (printer().isJson()) {
                printer().one(NewChannel.class, added.value(), List.of());
            }
            printer()
                    .say((added.created() ? "Added " : "There already, unchanged: ") + "channel " + name + "."
                            + (secret == null ? "" : " Its secret is not shown again.")
                            + " Next: panelbook channel test "
                            + Words.quoted(name));
            return 0;
        }
    }

    @Command(footer = {"  panelbook channel list", "  panelbook channel list --json=name,waiting,lastError"})
    static final class ListAll extends ListingOfKept<Channel> {
        @Override
        View<Channel> view() {
            return Views.channels();
        }

        @Override
        String path() {
            return kept("/channels");
        }

        @Override
        String none() {
            return "Nobody is told of alerts yet. Next: panelbook channel add NAME --mail ADDRESS";
        }
    }

    @Command(footer = "  panelbook channel show Night")
    static final class Show extends Showing<Channel> {
        @Parameters(paramLabel = "CHANNEL", description = CHANNEL)
        String channel = "";

        @Override
        View<Channel> view() {
            return Views.channels();
        }

        @Override
        Channel thing() {
            return names().channel(channel);
        }
    }

    @Command(
            footer = {
                "  panelbook channel edit Night --mail night@facility.example --mail day@facility.example",
                "  panelbook channel edit Night --facility - --all-causes"
            },
            description = {"", "What is given replaces what was there; a list is replaced whole."})
    static final class Edit extends Wishing {
        @Parameters(paramLabel = "CHANNEL", description = CHANNEL)
        String channel = "";

        @Option(names = "--name", paramLabel = "NAME", description = "New name.")
        @Nullable
        String name;

        @Option(
                names = "--facility",
                paramLabel = "FACILITY",
                description = "Only alerts of this facility; - for all facilities.")
        @Nullable
        String facility;

        @Option(names = "--all-causes", description = "Alerts with any cause.")
        boolean allCauses;

        @Option(names = "--from-opening", description = "Alerts from their opening on.")
        boolean fromOpening;

        @Override
        int work() {
            requireAny(
                    name,
                    url,
                    facility,
                    mail.isEmpty() ? null : mail,
                    causes.isEmpty() && !allCauses ? null : causes,
                    escalationsOnly || fromOpening ? true : null);
            if (escalationsOnly && fromOpening || allCauses && !causes.isEmpty()) {
                throw Failure.usage("--escalations-only and --from-opening, and --cause and --all-causes, contradict.");
            }
            var wanted = causesWanted();
            var old = names().channel(channel);
            var draft = new ChannelDraft(
                    old.id(),
                    or(name, old.name()),
                    old.kind(),
                    facility == null ? old.facilityId() : facilityId(facility),
                    allCauses || !wanted.isEmpty() ? wanted : old.causes(),
                    escalationsOnly || !fromOpening && old.escalationsOnly(),
                    mail.isEmpty() ? old.addresses() : mail,
                    url == null ? old.url() : url);
            var edited = service().put(Channel.class, "/channels/" + old.id(), draft, old.version());
            return changed(Views.channels(), edited, "Changed channel " + edited.name(), "");
        }

        private @Nullable UUID facilityId(String asked) {
            return asked.equals("-") ? null : names().facility(asked).id();
        }
    }

    @Command(footer = "  panelbook channel retire Night --reason \"the desk was closed\"")
    static final class Retire extends Retiring<Channel> {
        @Parameters(paramLabel = "CHANNEL", description = CHANNEL)
        String channel = "";

        @Override
        View<Channel> view() {
            return Views.channels();
        }

        @Override
        String collection() {
            return "/channels";
        }

        @Override
        UUID thingId() {
            return names().channel(channel).id();
        }

        @Override
        String name() {
            return "channel " + channel;
        }
    }

    @Command(
            footer = "  panelbook channel test Night",
            description = {"", "Exit code 1 when the receiver did not take it; what it said is printed."})
    static final class Test extends Action {
        @Parameters(paramLabel = "CHANNEL", description = CHANNEL)
        String channel = "";

        @Override
        int work() {
            printer().checkFields(ChannelTrial.class);
            var path = "/channels/" + names().channel(channel).id() + "/test";
            var trial = service().post(ChannelTrial.class, path, Map.of()).value();
            printer()
                    .one(
                            ChannelTrial.class,
                            trial,
                            List.of(
                                    of("DELIVERED", ChannelTrial::delivered),
                                    of("ANSWER", ChannelTrial::answer),
                                    of("MESSAGE", ChannelTrial::messageId)));
            return trial.delivered() ? ExitCode.DONE : ExitCode.FAILED;
        }
    }

    @Command(footer = "  panelbook channel deliveries Night --limit 20")
    static final class Deliveries extends Listing<Delivery> {
        @Parameters(paramLabel = "CHANNEL", description = CHANNEL)
        String channel = "";

        @Override
        View<Delivery> view() {
            return Views.deliveries();
        }

        @Override
        String path() {
            return "/channels/" + names().channel(channel).id() + "/deliveries";
        }

        @Override
        String none() {
            return "Nothing was sent through it yet. Next: panelbook channel test " + Words.quoted(channel);
        }
    }

    @Command(footer = "  panelbook alert told 0f7e3a44-0000-4000-8000-6b1d2c3e4f50")
    static final class Told extends Action {
        @Parameters(paramLabel = "ALERT", description = "Id of the alert; panelbook alert list shows them.")
        String alert = "";

        @Override
        int work() {
            printer().checkFields(AlertNotification.class);
            var path = "/alerts/" + Names.id("an alert", alert) + "/notifications";
            var told = service().list(AlertNotification.class, path);
            printer()
                    .list(
                            AlertNotification.class,
                            told,
                            Views.alertNotifications().columns());
            if (told.isEmpty() && at().personReadsErr()) {
                printer().say("No channel is concerned by it. Next: panelbook channel list");
            }
            return 0;
        }
    }

    @Command(
            footer = {
                "  panelbook facility notify North",
                "  panelbook facility notify North --escalate-after 120 --remind-every never --summary-over 5"
            },
            description = {
                "",
                "Without options it shows what holds. An alert that nobody acknowledged in time is escalated: all channels hear "
                        + "of it, those for escalations only, too. While an alert is acknowledged nobody is reminded of it."
            })
    static final class Notify extends Action {
        @Parameters(paramLabel = "FACILITY", description = "Name or id of the facility.")
        String facility = "";

        @Option(
                names = "--escalate-after",
                paramLabel = "MINUTES",
                description = "Minutes until an alert is escalated; or never.")
        @Nullable
        String escalateAfter;

        @Option(names = "--remind-every", paramLabel = "MINUTES", description = "Minutes between reminders; or never.")
        @Nullable
        String remindEvery;

        @Option(
                names = "--summary-over",
                paramLabel = "N",
                description = "More events than these at once come as one summary.")
        @Nullable
        Integer summaryOver;

        @Option(
                names = "--gather",
                paramLabel = "SECONDS",
                description = "How long events are gathered before the first is told.")
        @Nullable
        Integer gather;

        @Override
        int work() {
            printer().checkFields(NotificationSettings.class);
            var path = "/facilities/" + names().facility(facility).id() + "/notification-settings";
            var old = service().get(NotificationSettings.class, path);
            if (first(escalateAfter, remindEvery, summaryOver, gather) == null) {
                printer().one(NotificationSettings.class, old, FIELDS);
                return 0;
            }
            var draft = new NotificationSettingsDraft(
                    escalateAfter == null ? old.escalateAfterMinutes() : minutes("--escalate-after", escalateAfter),
                    remindEvery == null ? old.remindEveryMinutes() : minutes("--remind-every", remindEvery),
                    or(summaryOver, old.summaryOver()),
                    or(gather, old.gatherSeconds()));
            var set = service().put(NotificationSettings.class, path, draft, old.version());
            printer().one(NotificationSettings.class, set, FIELDS);
            printer().say("Set when people of " + facility + " are told.");
            return 0;
        }

        private static @Nullable Integer minutes(String option, String text) {
            if (text.equals("never")) {
                return null;
            }
            try {
                return Integer.valueOf(text);
            } catch (NumberFormatException e) {
                throw Failure.usage(option + " \"" + text + "\" is neither a number of minutes nor never.");
            }
        }

        private static final List<Column<NotificationSettings>> FIELDS = List.of(
                of("ESCALATE AFTER", s -> minutes(s.escalateAfterMinutes())),
                of("REMIND EVERY", s -> minutes(s.remindEveryMinutes())),
                of("SUMMARY OVER", NotificationSettings::summaryOver),
                of("GATHER", s -> s.gatherSeconds() + " s"),
                of("SET BY", s -> s.houseDefaults() ? "the house" : "the facility"));

        private static String minutes(@Nullable Integer minutes) {
            return minutes == null ? "never" : minutes + " min";
        }
    }
}
