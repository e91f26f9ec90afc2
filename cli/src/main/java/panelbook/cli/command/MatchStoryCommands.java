package panelbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.KeptMatch;
import panelbook.cli.match.KeptMatches;
import panelbook.cli.match.KeptStory;
import panelbook.cli.match.Opened;
import panelbook.cli.match.StepText;
import panelbook.cli.match.StepWords;
import panelbook.cli.service.Folders;
import panelbook.cli.service.Names;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Refused;
import panelbook.cli.service.Service;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.cli.terminal.Printer;
import panelbook.wire.Holds;
import panelbook.wire.Instrument;
import panelbook.wire.Match;
import panelbook.wire.MatchStory;
import panelbook.wire.OpeningDraft;
import panelbook.wire.Preset;
import panelbook.wire.Restoration;
import panelbook.wire.StoryState;
import panelbook.wire.Trim;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on matches under way: from the opening to the end, and back to any step. */
final class MatchStoryCommands {

    private static final int SHORT_ID = 8;

    private MatchStoryCommands() {}

    private static String shortId(UUID id) {
        return id.toString().substring(0, SHORT_ID);
    }

    @Command(
            footer = {
                "  panelbook match open --follower \"Suite 1/Client/HDR\" --hero \"Suite 1/Main/HDR\" --operator Mara \\",
                "    --instrument \"Meter 1\" --follower-on 75 --hero-on 80 --lights yes --from-last"
            },
            description = {
                "",
                "Says what should be true before a match and is not: baselines, target, signal path, warm-up, meter, light. "
                        + "Exit code 3 when something is not. The match is open all the same.",
                "",
                "--trim says how the controls stand now, from their calibrated settings; --from-last takes the trims that this "
                        + "operator signed off last, once you have set them. Without either the follower stands as calibrated.",
                "",
                "While the service is away the match is opened on this machine, where the names are known here."
            })
    static final class Open extends MatchTelling {
        @Option(
                names = "--follower",
                required = true,
                paramLabel = "PRESET",
                description = "ROOM/DISPLAY/PRESET or id.")
        String follower = "";

        @Option(names = "--hero", required = true, paramLabel = "PRESET", description = "ROOM/DISPLAY/PRESET or id.")
        String hero = "";

        @Option(names = "--operator", required = true, paramLabel = "NAME", description = "Whom it is made for.")
        String operator = "";

        @Option(names = "--instrument", paramLabel = "METER", description = "Name or id of the meter in hand.")
        @Nullable
        String instrument;

        @Option(
                names = "--follower-on",
                paramLabel = "MIN",
                description = "Minutes since the follower was switched on.")
        @Nullable
        Integer followerOn;

        @Option(names = "--hero-on", paramLabel = "MIN", description = "Minutes since the hero was switched on.")
        @Nullable
        Integer heroOn;

        @Option(names = "--lights", paramLabel = "YES|NO", description = "Whether the lights are at viewing level.")
        @Nullable
        String lights;

        @Option(
                names = "--trim",
                paramLabel = "CONTROL[@LEVEL]=CLICKS",
                description =
                        "How a control stands now, in clicks from its calibrated setting; may be given many times.")
        List<String> trims = new ArrayList<>();

        @Option(names = "--from-last", description = "The controls stand as this operator signed off last.")
        boolean fromLast;

        @Override
        int work() {
            printer().checkFields(MatchStory.class);
            if (fromLast && !trims.isEmpty()) {
                throw Failure.usage("Give --trim or --from-last, not both.");
            }
            var light = light();
            var of = preset(follower);
            var to = preset(hero);
            checkNoneUnderWay(of, to);
            var meter = instrument == null ? null : meter(instrument);
            var stand = fromLast
                    ? last(of, to)
                    : trims.stream().map(MatchCommands.SignOff::trim).toList();
            var draft = new OpeningDraft(
                    UUID.randomUUID(),
                    of.id(),
                    to.id(),
                    operator,
                    meter == null ? null : meter.id(),
                    followerOn,
                    heroOn,
                    light,
                    stand,
                    clock().instant());
            var opened = new Opened(
                    connection().logIn().service(),
                    draft,
                    Paths.of(of),
                    Paths.of(to),
                    of.target(),
                    meter == null ? null : meter.name());
            names().remembered().save();
            try (var match = matches().open(opened)) {
                return opened(match);
            }
        }

        private @Nullable Boolean light() {
            if (lights == null) {
                return null;
            }
            return switch (lights) {
                case "yes" -> true;
                case "no" -> false;
                default -> throw Failure.usage("--lights \"" + lights + "\" is neither yes nor no.");
            };
        }

        private Preset preset(String reference) {
            return known(
                    named(
                            () -> names().preset(reference),
                            () -> names().remembered().preset(reference)),
                    reference);
        }

        private Instrument meter(String reference) {
            return known(
                    named(
                            () -> names().instrument(reference),
                            () -> names().remembered().instrument(reference)),
                    reference);
        }

        private static <T> T known(@Nullable T thing, String reference) {
            if (thing == null) {
                throw Failure.failed("The service cannot be reached, and \"" + reference
                        + "\" is not known on this machine. Nothing was opened. Take notes, and open the match when the service"
                        + " is back.");
            }
            return thing;
        }

        private void checkNoneUnderWay(Preset of, Preset to) {
            for (var story : matches().open()) {
                var draft = story.opened().draft();
                if (draft.followerPresetId().equals(of.id())
                        && draft.heroPresetId().equals(to.id())
                        && draft.operator().equals(operator)) {
                    throw Failure.failed("Such a match is open already: " + KeptMatches.named(story)
                            + ". Go on: panelbook match session " + shortId(story.id())
                            + ", or end it: panelbook match give-up "
                            + shortId(story.id()) + " --reason TEXT");
                }
            }
        }

        private List<Trim> last(Preset of, Preset to) {
            var path = Service.with("/matches?follower=" + of.id() + "&hero=" + to.id(), "operator", operator);
            try {
                var signed = service().pages(Match.class, path, 1).items();
                if (signed.isEmpty()) {
                    throw Failure.failed(
                            operator + " has signed off no match of these two, so there are no last trims. Leave"
                                    + " --from-last out, or say how the controls stand with --trim.");
                }
                printer()
                        .say("Starting from the trims signed off at "
                                + signed.get(0).signedAt() + ": "
                                + StepText.settings(signed.get(0).trims()) + ".");
                return signed.get(0).trims();
            } catch (ServiceAway e) {
                throw Failure.failed(
                        e.text() + " Without it the last trims are not known: say how the controls stand with --trim.",
                        e);
            }
        }

        private int opened(KeptMatch match) {
            var sent = match.send(connection().plainService(), run -> false);
            var stopped = sent.stopped();
            if (match.story().state() == KeptStory.State.NOT_OPENED) {
                throw stopped == null
                        ? Failure.failed(String.valueOf(match.story().word()))
                        : stopped;
            }
            var story = sent.opened();
            if (story == null) {
                openedHere(match.story().id(), stopped);
                return ExitCode.DONE;
            }
            MatchTalk.fetchAdvice(connection());
            show(story);
            printer().say("Opened. " + next(story.id()));
            return story.conditions().stream().anyMatch(c -> c.holds() == Holds.NO) ? ExitCode.BEYOND : ExitCode.DONE;
        }

        private static String next(UUID match) {
            return "Next: panelbook match session " + shortId(match);
        }

        private void openedHere(UUID match, @Nullable Failure stopped) {
            if (printer().isJson()) {
                printer().printJson(Printer.row("id", match));
            } else {
                printer().line("Match " + match + ": not sent yet");
            }
            printer()
                    .say((stopped == null ? "" : stopped.text() + " ")
                            + "The match is open on this machine; what should be true before it is checked when the service has it. "
                            + next(match));
        }

        private void show(MatchStory story) {
            if (printer().isJson()) {
                printer().one(MatchStory.class, story, List.of());
                return;
            }
            printer()
                    .line("Match " + story.id() + ": " + story.follower() + " to " + story.hero() + " ("
                            + story.target() + ") for " + story.operator());
            printer().line("controls: " + StepText.settings(story.startingTrims()));
            MatchText.conditions(story.conditions()).forEach(printer()::line);
            story.advice().forEach(printer()::line);
        }
    }

    @Command(
            footer = {
                "  panelbook match session",
                "  panelbook match session 7d7f2b0c",
                "  cat steps.txt | panelbook match session 7d7f2b0c"
            },
            description = {
                "",
                "Without MATCH: the only match under way on this machine. Every step is on this machine's disk before the prompt "
                        + "returns, and goes to the service at once, or when it is back. A session that was broken off, by whatever, "
                        + "is taken up with the same command. help lists the words of a session.",
                "",
                "Without a terminal, lines come from standard input, and the first that cannot be done ends it (exit code 1). "
                        + "Exit code 3 while a guard refuses a trim and nobody has let it stand."
            })
    static final class Session extends MatchTelling {
        @Parameters(paramLabel = "MATCH", arity = "0..1", description = MATCH)
        @Nullable
        String match;

        @Override
        int work() {
            printer().checkFields(MatchText.StepShown.class);
            try (var kept = attach(match == null ? onlyOne() : match);
                    var lines = lines(kept)) {
                var talk = talk(kept, lines);
                talk.begin();
                var code = at().personReadsIn() ? talkWithPerson(talk, lines) : talkWithScript(talk, lines);
                sayGoodbye(kept.story());
                return code;
            }
        }

        private Lines lines(KeptMatch kept) {
            return at().personReadsIn()
                    ? new MatchTerminal(
                            new MatchCompletion(kept.story(), at().folder()),
                            Folders.of(at()).state().resolve("session-history"))
                    : Lines.of(at().in());
        }

        private String onlyOne() {
            var open = matches().open();
            if (open.size() == 1) {
                return open.get(0).id().toString();
            }
            if (open.isEmpty()) {
                throw Failure.failed(
                        "No match is under way on this machine. Next: panelbook match open --help, or panelbook"
                                + " match stories --state open for those begun elsewhere.");
            }
            throw Failure.failedAt(
                    "Several matches are under way on this machine. Name one:",
                    open.stream().map(KeptMatches::named).toList());
        }

        private int talkWithPerson(MatchTalk talk, Lines lines) {
            var goesOn = talk.goesOn();
            while (goesOn) {
                var line = lines.next(talk.prompt());
                if (line == null) {
                    break;
                }
                try {
                    goesOn = talk.line(line);
                } catch (Failure e) {
                    printer().say(e.text());
                    e.places().forEach(place -> printer().say("  " + place));
                }
            }
            return talk.code();
        }

        private int talkWithScript(MatchTalk talk, Lines lines) {
            var number = 0;
            for (var line = lines.next(""); line != null; line = lines.next("")) {
                number++;
                try {
                    if (!talk.line(line)) {
                        return talk.code();
                    }
                } catch (Failure e) {
                    at().err().println("panelbook: line " + number + ": " + e.text());
                    e.places().forEach(place -> at().err().println("  " + place));
                    at().err().println("Nothing after it was done; the match stands as before that line.");
                    return talk.refusedAtTheEnd() ? ExitCode.BEYOND : ExitCode.FAILED;
                }
            }
            return talk.code();
        }

        private void sayGoodbye(KeptStory story) {
            if (story.state() == KeptStory.State.OPEN) {
                printer().say("The match is still open. Go on: panelbook match session " + shortId(story.id()));
            }
            if (!story.unsent().isEmpty()) {
                printer().say(story.unsent().size() + " not sent yet; they wait on this machine until then.");
            }
        }
    }

    @Command(
            footer = {
                "  panelbook match do 7d7f2b0c \"saw redder skin on 'beach, shot 3'\" \"trim gain.red -1\" better",
                "  panelbook match do 7d7f2b0c \"read after.csv\""
            },
            description = {
                "",
                "Each argument is a line as a session takes it; type help in a session for its words. They are done in order, and "
                        + "the first that cannot be done ends it."
            })
    static final class Do extends MatchTelling {
        @Parameters(index = "0", paramLabel = "MATCH", description = MATCH)
        String match = "";

        @Parameters(index = "1..*", arity = "1..*", paramLabel = "STEP", description = "Steps, each in quotes.")
        List<String> steps = new ArrayList<>();

        @Override
        int work() {
            printer().checkFields(MatchText.StepShown.class);
            steps.forEach(StepWords::command); // one that is not understood is told before any is done
            try (var kept = attach(match)) {
                var talk = talk(kept, Asking.NOBODY);
                talk.beginQuietly();
                for (var step : steps) {
                    if (!talk.line(step)) {
                        break;
                    }
                }
                return talk.code();
            }
        }
    }

    @Command(
            footer = {
                "  panelbook match stories --state open",
                "  panelbook match stories --follower \"Suite 1/Client/HDR\" --operator Mara"
            })
    static final class Stories extends Listing<MatchStory> {
        @Option(names = "--follower", paramLabel = "PRESET", description = "Only of this follower.")
        @Nullable
        String follower;

        @Option(names = "--hero", paramLabel = "PRESET", description = "Only to this hero.")
        @Nullable
        String hero;

        @Option(names = "--operator", paramLabel = "NAME", description = "Only for this operator.")
        @Nullable
        String operator;

        @Option(names = "--state", paramLabel = "STATE", description = "open, signed or given-up.")
        @Nullable
        String state;

        @Override
        View<MatchStory> view() {
            return MatchText.stories();
        }

        @Override
        String path() {
            var path = MatchCommands.narrowed("/match-stories", names(), follower, hero, operator);
            return state == null
                    ? path
                    : with(
                            path,
                            "state",
                            Words.one(StoryState.class, "--state", state).toString());
        }

        @Override
        String none() {
            return "There is no such match. Next: panelbook match open --help";
        }
    }

    @Command(
            footer = {"  panelbook match story 7d7f2b0c", "  panelbook match story 7d7f2b0c --json=conditions,steps"},
            description = {
                "",
                "What was seen, tried and undone, with the numbers that match restore takes. While the service is away, what "
                        + "this machine knows of a match that is under way on it."
            })
    static final class Story extends MatchAction {
        @Parameters(paramLabel = "MATCH", description = MATCH)
        String match = "";

        @Override
        int work() {
            printer().checkFields(MatchStory.class);
            var kept = matches().find(match);
            var id = kept == null ? Names.id("a match", match) : kept.id();
            try {
                show(service().get(MatchStory.class, "/match-stories/" + id), kept);
            } catch (ServiceAway e) {
                if (kept == null || printer().isJson()) {
                    throw e;
                }
                printer().say(e.text() + " This is what this machine knows.");
                table(kept);
            }
            return 0;
        }

        private void show(MatchStory story, @Nullable KeptStory kept) {
            if (printer().isJson()) {
                printer().one(MatchStory.class, story, List.of());
                return;
            }
            printer().one(MatchStory.class, story, MatchText.storyFields());
            MatchText.conditions(story.conditions()).forEach(printer()::line);
            table(KeptStory.of(service().address(), story));
            if (kept != null && !kept.allSent()) {
                printer()
                        .say(kept.unsent().size()
                                + " more on this machine are not sent yet. Next: panelbook match session "
                                + shortId(story.id()));
            }
        }

        private void table(KeptStory story) {
            printer()
                    .list(
                            MatchText.Row.class,
                            MatchText.rows(story, story.guards()),
                            MatchText.rows().columns());
        }
    }

    @Command(
            footer = {"  panelbook match restore 7d7f2b0c --step 4", "  panelbook match restore 7d7f2b0c"},
            description = {
                "",
                "Lists which controls to set to what to get back to a step of a match, or, without --step, to its last state. Also "
                        + "of a match that is long signed off. Changes nothing: you turn the controls."
            })
    static final class Restore extends MatchAction {
        @Parameters(paramLabel = "MATCH", description = MATCH + " Of a signed one also the id of the sign-off.")
        String match = "";

        @Option(names = "--step", paramLabel = "N", description = "Number of the step, 0 for how it began.")
        @Nullable
        Integer step;

        @Override
        int work() {
            printer().checkFields(Restoration.class);
            var kept = matches().find(match);
            var id = kept == null ? Names.id("a match", match) : kept.id();
            MatchTalk.showRestoration(printer(), kept == null || kept.allSent() ? restoration(id, kept) : here(kept));
            return 0;
        }

        private Restoration restoration(UUID id, @Nullable KeptStory kept) {
            var path = Service.with(
                    "/match-stories/" + id + "/restoration", "step", step == null ? null : step.toString());
            try {
                return service().get(Restoration.class, path);
            } catch (ServiceAway e) {
                if (kept == null) {
                    throw e;
                }
                return here(kept);
            } catch (Refused e) {
                if (e.status() != 404 || step != null) {
                    throw e;
                }
                return service().get(Restoration.class, "/matches/" + id + "/restoration");
            }
        }

        private Restoration here(KeptStory kept) {
            var number = step == null ? kept.last() : step;
            if (number < 0 || number > kept.last()) {
                throw Failure.usage("There is no step " + number + "; the last one is " + kept.last() + ".");
            }
            return MatchTalk.restoration(kept, number);
        }
    }

    @Command(
            footer = {
                "  panelbook match sign 7d7f2b0c --material \"12 shots of the show\" --remarks \"skin first\"",
                "  panelbook match sign 7d7f2b0c --unmeasured"
            },
            description = {
                "",
                "The closing runs are the last readings of the match, that of the follower taken as its controls stand now; or name "
                        + "both. Without closing runs nothing is judged against this match: say so with --unmeasured.",
                "",
                "Look at many shots before the operator accepts. A guard that refuses is in the way until the trim is undone or "
                        + "kept with a reason: exit code 3."
            })
    static final class Sign extends MatchTelling {
        @Parameters(paramLabel = "MATCH", description = MATCH)
        String match = "";

        @Option(names = "--follower-run", paramLabel = "RUN", description = "Closing run of the follower, by id.")
        @Nullable
        String followerRun;

        @Option(names = "--hero-run", paramLabel = "RUN", description = "Closing run of the hero, by id.")
        @Nullable
        String heroRun;

        @Option(names = "--material", paramLabel = "TEXT", description = "What was looked at.")
        @Nullable
        String material;

        @Option(names = "--remarks", paramLabel = "TEXT", description = "Remarks.")
        @Nullable
        String remarks;

        @Option(names = "--unmeasured", description = "Without closing runs.")
        boolean unmeasured;

        @Override
        int work() {
            printer().checkFields(Match.class);
            var words = SignWords.of(followerRun, heroRun, material, remarks, unmeasured);
            try (var kept = attach(match)) {
                var talk = talk(kept, Asking.NOBODY);
                talk.beginQuietly();
                try {
                    talk.sign(words);
                } catch (Failure e) {
                    if (!talk.refusedAtTheEnd()) {
                        throw e;
                    }
                    at().err().println("panelbook: " + e.text());
                    e.places().forEach(place -> at().err().println("  " + place));
                    return ExitCode.BEYOND;
                }
                return ExitCode.DONE;
            }
        }
    }

    @Command(footer = "  panelbook match give-up 7d7f2b0c --reason \"the converter has to go first\"")
    static final class GiveUp extends MatchTelling {
        @Parameters(paramLabel = "MATCH", description = MATCH)
        String match = "";

        @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "Why; it stays on the record.")
        String reason = "";

        @Override
        int work() {
            printer().checkFields(MatchStory.class);
            try (var kept = attach(match)) {
                var talk = talk(kept, Asking.NOBODY);
                talk.beginQuietly();
                talk.giveUp(reason);
                return ExitCode.DONE;
            }
        }
    }
}
