package panelbook.cli.command;

import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Paths;
import panelbook.cli.service.Service;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Match;
import panelbook.wire.Preset;
import panelbook.wire.Purpose;
import panelbook.wire.Run;
import panelbook.wire.SignOffDraft;
import panelbook.wire.Trim;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on matches. */
final class MatchCommands {

    private MatchCommands() {}

    /** The path of a list of matches, narrowed to what was given. */
    static String narrowed(
            String path, Names names, @Nullable String follower, @Nullable String hero, @Nullable String operator) {
        var narrowed = path;
        if (follower != null) {
            narrowed = Service.with(
                    narrowed, "follower", names.preset(follower).id().toString());
        }
        if (hero != null) {
            narrowed = Service.with(narrowed, "hero", names.preset(hero).id().toString());
        }
        return Service.with(narrowed, "operator", operator);
    }

    @Command(
            footer = {
                "  panelbook match sign-off --follower \"Suite 1/Client/HDR\" --hero \"Suite 1/Main/HDR\" \\",
                "    --operator Mara --trim gain.red=+2 --trim bias.blue@low=-1 --material \"grey ramp, skin tones\""
            },
            description = {
                "",
                "Records that an operator accepts the follower as alike to its hero. What the two then measure apart is the "
                        + "agreed offset, and later drift is judged against it.",
                "",
                "Without --follower-run and --hero-run, the latest match run of each preset is taken; where there is none, its "
                        + "latest as-left run; where there is none either, its latest run. The command says which.",
                "",
                "With --unmeasured it is signed without closing runs: then no residual is judged against it.",
                "",
                "Trims are complete: a control that is not listed stands at its calibrated setting. A match that was opened with "
                        + "match open is signed with match sign."
            })
    static final class SignOff extends Action {
        /** Runs to look through for one that was not withdrawn. */
        private static final int LOOK_BACK = 20;

        @Option(
                names = "--follower",
                required = true,
                paramLabel = "PRESET",
                description = "ROOM/DISPLAY/PRESET or id.")
        String follower = "";

        @Option(names = "--hero", required = true, paramLabel = "PRESET", description = "ROOM/DISPLAY/PRESET or id.")
        String hero = "";

        @Option(names = "--operator", required = true, paramLabel = "NAME", description = "Who accepted it.")
        String operator = "";

        @Option(names = "--follower-run", paramLabel = "RUN", description = "Closing run of the follower, by id.")
        @Nullable
        String followerRun;

        @Option(names = "--hero-run", paramLabel = "RUN", description = "Closing run of the hero, by id.")
        @Nullable
        String heroRun;

        @Option(names = "--unmeasured", description = "Without closing runs.")
        boolean unmeasured;

        @Option(
                names = "--trim",
                paramLabel = "CONTROL[@LEVEL]=CLICKS",
                description =
                        "How far a control stands from its calibrated setting, in clicks; may be given many times.")
        List<String> trims = new ArrayList<>();

        @Option(names = "--material", paramLabel = "TEXT", description = "What was looked at.")
        @Nullable
        String material;

        @Option(names = "--remarks", paramLabel = "TEXT", description = "Remarks.")
        @Nullable
        String remarks;

        @Option(names = "--at", paramLabel = "TIME", description = "When it was signed (default: now).")
        @Nullable
        String when;

        @Override
        int work() {
            printer().checkFields(Match.class);
            if (unmeasured && first(followerRun, heroRun) != null) {
                throw Failure.usage("--unmeasured means without closing runs: leave it out, or leave the runs out.");
            }
            var stand = trims.stream().map(SignOff::trim).toList();
            var signedAt = when == null ? null : Words.time("--at", when);
            var of = names().preset(follower);
            var to = names().preset(hero);
            var ofRun = unmeasured ? null : run("follower", of, followerRun);
            var toRun = unmeasured ? null : run("hero", to, heroRun);
            var id = idOf(
                    "match",
                    of.id(),
                    to.id(),
                    operator,
                    ofRun == null ? "unmeasured" : ofRun,
                    toRun == null ? "unmeasured" : toRun,
                    stand,
                    signedAt == null ? "" : signedAt);
            var draft =
                    new SignOffDraft(id, of.id(), to.id(), operator, ofRun, toRun, stand, material, remarks, signedAt);
            var match = service().post(Match.class, "/matches", draft);
            printer().one(Match.class, match.value(), Views.matches().fields());
            printer()
                    .say((match.created() ? "Signed off" : "Signed off already, unchanged")
                            + (match.value().measured() ? "" : ", unmeasured") + ": " + Paths.of(of)
                            + " to "
                            + Paths.of(to) + " for " + operator + ". Next: panelbook trim show "
                            + Words.quoted(of.facility() + "/" + or(of.room(), "-")));
            return 0;
        }

        private UUID run(String role, Preset preset, @Nullable String given) {
            if (given != null) {
                return Names.id("a run", given);
            }
            for (var purpose : List.of("match", "as-left", "")) {
                var runs = latest(preset, purpose);
                if (!runs.isEmpty()) {
                    var run = runs.get(0);
                    printer()
                            .say("Taking for the " + role + " its latest "
                                    + (purpose.isEmpty() ? run.purpose() : purpose) + " run, " + run.id() + ", taken "
                                    + run.takenAt() + ".");
                    return run.id();
                }
            }
            throw Failure.failed("There is no run of " + Paths.of(preset)
                    + " that shows how it stands. Next: panelbook run upload FILE --preset "
                    + Words.quoted(Paths.of(preset)) + " --purpose " + Purpose.MATCH);
        }

        private List<Run> latest(Preset preset, String purpose) {
            var path = "/runs?preset=" + preset.id();
            return service()
                    .pages(Run.class, purpose.isEmpty() ? path : Service.with(path, "purpose", purpose), LOOK_BACK)
                    .items()
                    .stream()
                    .filter(run -> run.withdrawn() == null)
                    .toList();
        }

        static Trim trim(String text) {
            var equals = text.lastIndexOf('=');
            var name = equals < 0 ? "" : text.substring(0, equals);
            var at = name.indexOf('@');
            var control = at < 0 ? name : name.substring(0, at);
            var level = at < 0 ? "all" : name.substring(at + 1);
            if (control.isEmpty() || level.isEmpty()) {
                throw Failure.usage(
                        "--trim \"" + text + "\" is not CONTROL=CLICKS or CONTROL@LEVEL=CLICKS, such as gain.red=+2.");
            }
            try {
                return new Trim(control, level, Integer.parseInt(text.substring(equals + 1)));
            } catch (NumberFormatException e) {
                throw Failure.usage("--trim \"" + text + "\": clicks are a whole number, such as +2 or -1.");
            }
        }
    }

    @Command(
            footer = {
                "  panelbook match list",
                "  panelbook match list --follower \"Suite 1/Client/HDR\" --operator Mara"
            })
    static final class ListAll extends Listing<Match> {
        @Option(names = "--follower", paramLabel = "PRESET", description = "Only of this follower.")
        @Nullable
        String follower;

        @Option(names = "--hero", paramLabel = "PRESET", description = "Only to this hero.")
        @Nullable
        String hero;

        @Option(names = "--operator", paramLabel = "NAME", description = "Only of this operator.")
        @Nullable
        String operator;

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        View<Match> view() {
            return Views.matches();
        }

        @Override
        String path() {
            return Past.of(narrowed("/matches", names(), follower, hero, operator), asOf);
        }

        @Override
        String none() {
            return "There is no such match. Next: panelbook match sign-off --help";
        }
    }

    @Command(footer = "  panelbook match show 7d7f2b0c-0000-4000-8000-55aa10f0c3e1")
    static final class Show extends Showing<Match> {
        @Parameters(paramLabel = "MATCH", description = "Id of the match; panelbook match list shows them.")
        String match = "";

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        View<Match> view() {
            return Views.matches();
        }

        @Override
        Match thing() {
            return service().get(Match.class, Past.of("/matches/" + Names.id("a match", match), asOf));
        }
    }
}
