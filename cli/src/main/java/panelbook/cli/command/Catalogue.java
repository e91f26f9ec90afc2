package panelbook.cli.command;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Surroundings;
import picocli.CommandLine;
import picocli.CommandLine.Help.Ansi;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.OptionSpec;
import picocli.CommandLine.Model.UsageMessageSpec;

/** All commands. Builds only the command that was typed, because building all of them takes longer than most commands. */
public final class Catalogue {

    /**
     * A command or a group of commands.
     *
     * @param path words after {@code panelbook}; empty for panelbook itself
     * @param header its line of help
     */
    public record Entry(List<String> path, String header) {}

    private static final String NAME = "panelbook";
    private static final int DEEPEST = 3;
    private static final int NARROW = 80;
    private static final int WIDE = 120;
    private static final int USUAL = 100;
    private static final int LONG_OPTION = 38;

    // path | line of help; a group stands before its commands
    private static final String ENTRIES = """
            |Keeps the book on every display: what it is, how it drifted, whether its room may be booked.
            log-in|Log in to a service.
            log-out|Forget the log-in.
            who|Show who you are and whether the service answers.
            facility|Facilities.
            facility add|Add a facility.
            facility list|List facilities.
            facility show|Show a facility.
            facility edit|Change a facility.
            facility retire|Take a facility out of use.
            facility enter|Enter a whole facility from one file.
            facility export|Write a whole facility to one file.
            facility notify|Show or set when people of a facility are told of alerts.
            room|Rooms, their sheets, heroes and readiness.
            room add|Add a room.
            room list|List rooms.
            room show|Show a room.
            room edit|Change a room.
            room retire|Take a room out of use.
            room sheet|Show everything asked on arrival in a room; --save keeps a copy.
            room readiness|Say whether a room may be booked, and why.
            room history|Say how the readiness of a room went, and what changed it.
            room importance|Show or say how much a room weighs in a plan.
            room hero|Heroes of a room.
            room hero name|Name the hero of a room for the target of a preset.
            room hero list|List the heroes of a room.
            display|Displays.
            display add|Add a display.
            display list|List displays.
            display show|Show a display and where it stood.
            display edit|Change a display.
            display move|Move a display to another room.
            display retire|Take a display out of use.
            display merge|Merge a display that was entered twice into the one to keep.
            display hours|Panel hours of a display.
            display hours add|Enter a panel-hours counter.
            display hours list|List a display's panel hours.
            display hours read|Enter the panel hours of many displays from a CSV file.
            display hours questions|List what is asked about panel hours.
            display hours answer|Say what a questioned value of panel hours was.
            display quirk|Quirks of a display: what the next visitor should know.
            display quirk add|Note a quirk of a display.
            display quirk list|List a display's quirks.
            display quirk settle|Settle a quirk with a word on what became of it.
            display control|How far the controls of a display go.
            display control set|Say how far a control goes.
            display control list|List how far a display's controls go.
            preset|Presets of displays.
            preset add|Add a preset to a display.
            preset list|List presets.
            preset show|Show a preset.
            preset drawing|Show or draw a chart of what was measured of a preset.
            preset edit|Change a preset.
            preset retire|Take a preset out of use.
            target|Targets.
            target add|Add a target.
            target list|List targets.
            target show|Show a target.
            target edit|Change a target.
            target retire|Take a target out of use.
            tolerance-set|Tolerance sets.
            tolerance-set add|Add a tolerance set.
            tolerance-set list|List tolerance sets.
            tolerance-set show|Show a tolerance set with its limits and where they come from.
            tolerance-set edit|Change a tolerance set or its limits.
            tolerance-set retire|Take a tolerance set out of use.
            instrument|Instruments, their certificates and corrections.
            instrument add|Add an instrument.
            instrument list|List instruments.
            instrument show|Show an instrument.
            instrument edit|Change an instrument.
            instrument retire|Take an instrument out of use.
            instrument certificate|Certificates of an instrument.
            instrument certificate add|Add a calibration certificate.
            instrument certificate list|List an instrument's certificates.
            instrument correction|Corrections of a field meter.
            instrument correction make|Make a correction from two runs of the same patches, after showing what it changes.
            instrument correction list|List a meter's corrections, all versions.
            instrument correction withdraw|Apply a correction no longer; it stays on record.
            run|Runs: upload them and look at them.
            run upload|Upload run files; each is answered with its verdict.
            run list|List runs, newest first.
            run diagnose|Tell from a grey ramp what happened to the signal, and what to check first.
            run show|Show a run and its verdict.
            run withdraw|Withdraw a run, or move it to the preset it was taken on.
            baseline|Baselines of presets.
            baseline declare|Declare an as-left run the baseline of its preset.
            baseline list|List the baselines of a preset.
            match|Matches of followers to heroes.
            match open|Open a match and say what should be true first.
            match session|Make a match at the keyboard, step by step.
            match do|Add steps to a match, for scripts.
            match story|Show the story of a match, step by step.
            match stories|List matches with their stories, newest first.
            match restore|Say what to set to get back to a step of a match.
            match sign|Sign a match: the operator accepts.
            match give-up|Close a match without a sign-off.
            match sign-off|Record a sign-off that was made without opening a match.
            match list|List matches.
            match show|Show a match.
            match withdraw|Withdraw a match, or give it to the operator it was signed for.
            trim|Trims.
            trim show|Show the trims in force in a room and their history, by operator.
            trim suggest|Suggest the clicks that bring a follower nearest to its hero.
            trim effects|Show what a click of each control does.
            advice|Advice that a match is given.
            advice list|List the table of advice.
            advice add|Add a line of advice.
            advice edit|Change a line of advice.
            advice retire|Take a line of advice out of use.
            alert|Alerts.
            alert list|List alerts, newest first.
            alert show|Show an alert with its findings and history.
            alert ack|Take an alert in hand.
            alert close|Close an alert with a reason.
            alert told|Show who was told of an alert, who was not, and why.
            alert follow|Print alert events as they happen, or hand each to a program.
            channel|Channels: who is told of alerts, by mail or by a program.
            channel add|Add a channel.
            channel list|List channels and what waits for them.
            channel show|Show a channel.
            channel edit|Change a channel.
            channel retire|Take a channel out of use.
            channel test|Send a message that tells nothing, at once.
            channel deliveries|List the messages of a channel, newest first.
            quiet|Quiet periods of rooms and displays.
            quiet add|Let nobody be told of a room or display for a time.
            quiet list|List quiet periods.
            quiet end|End a quiet period now.
            finding|Findings.
            finding list|List the findings that stand for a preset.
            forecast|Forecasts of drift.
            forecast show|Draw how a display drifts and say when it will be out of tolerance.
            due|Say what is due and when, earliest first.
            plan|Show the visits of the coming weeks, or lay them anew into free hours.
            visit|Visits of calibrators to rooms.
            visit add|Add a visit by hand.
            visit list|List visits, earliest first.
            visit show|Show a visit with its work.
            visit confirm|Agree to a visit.
            visit move|Move a visit to another time or calibrator, and pin it there.
            visit pin|Keep plans from moving a visit.
            visit unpin|Let plans move a visit again.
            visit done|Say that a visit was made.
            visit drop|Say that a visit will not be made.
            calibrator|Calibrators, their hours and absences.
            calibrator add|Add a calibrator.
            calibrator list|List calibrators.
            calibrator show|Show a calibrator.
            calibrator edit|Change a calibrator.
            calibrator retire|Take a calibrator out of use.
            calibrator absence|Days on which a calibrator is away.
            calibrator absence add|Note days on which a calibrator is away.
            calibrator absence list|List when a calibrator is away.
            calibrator absence cancel|Take an absence back.
            holiday|Days on which nobody works.
            holiday add|Note a holiday.
            holiday list|List holidays.
            holiday cancel|Take a holiday back.
            travel|How far facilities lie apart.
            travel set|Say how long it takes from one facility to another.
            travel list|List how long it takes between facilities.
            duration|How long work takes.
            duration set|Say how long a piece of work takes.
            duration list|List how long work takes, told or learned.
            booking|When rooms are booked, as calendars say.
            booking read|Read a room's bookings from a calendar file.
            booking follow|Have a room's bookings fetched from the address of a calendar.
            booking list|List when a room is booked.
            booking sources|List the calendars that tell when rooms are booked.
            booking forget|Take a room's calendar out of use.
            calendar|Calendars of visits for calendar programs.
            calendar open|Open a calendar of visits under a secret address.
            calendar list|List the open calendars of visits.
            calendar close|Close a calendar of visits for good.
            proof|Proofs: documents that show the state of a room on a day.
            proof make|Make the proof of a room and day, a PDF.
            proof list|List the proofs made of a room, newest first.
            proof check|Say whether a file is a proof that was handed out here.
            spool|Runs that wait on this machine to be sent.
            spool list|List what is in the spool.
            spool send|Send what is in the spool.
            spool delete|Delete a run that was set aside.
            token|Tokens of people and probes.
            token add|Make a token.
            token list|List tokens.
            token revoke|Revoke a token.
            account|People who sign in to the web board with a password.
            account add|Add an account.
            account list|List accounts.
            account password|Set the password of an account.
            account retire|Take an account out of use.
            audit|The audit log.
            audit list|List who changed what, newest first.
            completion|Print a completion script for bash.
            """;

    private Catalogue() {}

    /** Every command and group, in the order of the help. */
    public static List<Entry> entries() {
        return ENTRIES.lines().map(Catalogue::entry).toList();
    }

    private static Entry entry(String line) {
        var bar = line.indexOf('|');
        var path = line.substring(0, bar).strip();
        return new Entry(path.isEmpty() ? List.of() : Arrays.asList(path.split(" ")), line.substring(bar + 1));
    }

    /**
     * A command line and how much of what was typed led to it.
     *
     * @param words first words of the command line that name the command
     */
    public record Found(CommandLine line, int words) {}

    /** The command or group that {@code words} begin with, built alone; the whole program where they name none. */
    public static Found find(Surroundings at, List<String> words) {
        for (var depth = Math.min(words.size(), DEEPEST); depth > 0; depth--) {
            var path = String.join(" ", words.subList(0, depth));
            var entry = find(path);
            if (entry != null) {
                return new Found(new Building(at, true).line(entry), depth);
            }
        }
        return new Found(new Building(at, true).line(entry(ENTRIES.substring(0, ENTRIES.indexOf('\n')))), 0);
    }

    // without reading the other lines
    private static @Nullable Entry find(String path) {
        var start = ENTRIES.indexOf("\n" + path + "|");
        return start < 0 ? null : entry(ENTRIES.substring(start + 1, ENTRIES.indexOf('\n', start + 1)));
    }

    /** Whether an entry is a group of others. */
    static boolean isGroup(Entry entry) {
        return entry.path().isEmpty() || ENTRIES.contains("\n" + together(entry) + " ");
    }

    private static String together(Entry entry) {
        return String.join(" ", entry.path());
    }

    /** The command line with every command built from its own annotations. */
    public static CommandLine wholeCommandLine(Surroundings at) {
        return new Building(at, false).line(entries().get(0));
    }

    /**
     * One building.
     *
     * @param alone whether only the command itself is built, under its whole name and from the index, its children being
     *     lines of help; else everything under it is built, from annotations
     */
    private record Building(Surroundings at, boolean alone) {

        CommandLine line(Entry entry) {
            if (!isGroup(entry)) {
                var line = command(entry);
                dress(line.getCommandSpec(), entry);
                return line;
            }
            var line = group(entry);
            var depth = entry.path().size() + 1;
            for (var child : entries()) {
                if (child.path().size() == depth
                        && child.path().subList(0, depth - 1).equals(entry.path())) {
                    line.addSubcommand(last(child), alone ? named(child) : line(child));
                }
            }
            dress(line.getCommandSpec(), entry);
            return line;
        }

        private CommandLine command(Entry entry) {
            var action = Commands.make(together(entry));
            action.connect(new Connection(at));
            var spec = alone ? CommandIndex.spec(together(entry), action) : null;
            var line = spec == null ? new CommandLine(action) : new CommandLine(spec);
            action.describe(line.getCommandSpec().usageMessage());
            return line;
        }

        private CommandLine group(Entry entry) {
            var spec = CommandSpec.wrapWithoutInspection((Runnable) () -> {
                throw Failure.usage("Say what to do. " + name(entry) + " --help lists the commands.");
            });
            spec.addOption(OptionSpec.builder("-h", "--help")
                    .usageHelp(true)
                    .description("Show this help.")
                    .build());
            if (entry.path().isEmpty()) {
                spec.addOption(OptionSpec.builder("--version")
                        .versionHelp(true)
                        .description("Show the version.")
                        .build());
                spec.version(NAME + " " + Version.text());
            }
            var usage = spec.usageMessage();
            usage.synopsisHeading(Action.SYNOPSIS_HEADING);
            usage.commandListHeading("%nCommands:%n");
            usage.optionListHeading(Action.OPTIONS_HEADING);
            usage.footer(GroupExamples.of(together(entry)));
            return new CommandLine(spec);
        }

        private CommandLine named(Entry entry) {
            var spec = CommandSpec.wrapWithoutInspection((Runnable) () -> {
                throw Failure.usage("Options come after the command: " + name(entry) + " …");
            });
            spec.usageMessage().header(entry.header());
            return new CommandLine(spec);
        }

        private void dress(CommandSpec spec, Entry entry) {
            spec.name(alone ? name(entry) : last(entry));
            var usage = spec.usageMessage();
            usage.header(entry.header());
            usage.width(Math.max(NARROW, Math.min(WIDE, at.width() == 0 ? USUAL : at.width())));
            usage.longOptionsMaxWidth(LONG_OPTION);
            usage.exitCodeListHeading("%nExit codes:%n");
            usage.exitCodeList(ExitCode.list());
            usage.footerHeading("%nExamples:%n");
            usage.sectionKeys(ORDER);
        }

        private static String name(Entry entry) {
            return entry.path().isEmpty() ? NAME : NAME + " " + together(entry);
        }

        private static String last(Entry entry) {
            return entry.path().isEmpty() ? NAME : entry.path().get(entry.path().size() - 1);
        }
    }

    // examples lead
    private static final List<String> ORDER = List.of(
            UsageMessageSpec.SECTION_KEY_HEADER_HEADING,
            UsageMessageSpec.SECTION_KEY_HEADER,
            UsageMessageSpec.SECTION_KEY_FOOTER_HEADING,
            UsageMessageSpec.SECTION_KEY_FOOTER,
            UsageMessageSpec.SECTION_KEY_SYNOPSIS_HEADING,
            UsageMessageSpec.SECTION_KEY_SYNOPSIS,
            UsageMessageSpec.SECTION_KEY_DESCRIPTION_HEADING,
            UsageMessageSpec.SECTION_KEY_DESCRIPTION,
            UsageMessageSpec.SECTION_KEY_PARAMETER_LIST_HEADING,
            UsageMessageSpec.SECTION_KEY_PARAMETER_LIST,
            UsageMessageSpec.SECTION_KEY_OPTION_LIST_HEADING,
            UsageMessageSpec.SECTION_KEY_OPTION_LIST,
            UsageMessageSpec.SECTION_KEY_COMMAND_LIST_HEADING,
            UsageMessageSpec.SECTION_KEY_COMMAND_LIST,
            UsageMessageSpec.SECTION_KEY_EXIT_CODE_LIST_HEADING,
            UsageMessageSpec.SECTION_KEY_EXIT_CODE_LIST);

    /** Colours of help and messages: none unless a person reads and {@code NO_COLOR} is unset. */
    public static CommandLine.Help.ColorScheme colours(Surroundings at) {
        var coloured = at.personReadsOut() && at.variable("NO_COLOR") == null;
        return CommandLine.Help.defaultColorScheme(coloured ? Ansi.ON : Ansi.OFF);
    }

    /** Words of a command line that lead to a command: those before the first option. */
    public static List<String> words(List<String> arguments) {
        var words = new ArrayList<String>();
        for (var argument : arguments) {
            if (argument.startsWith("-")) {
                break;
            }
            words.add(argument);
        }
        return words;
    }
}
