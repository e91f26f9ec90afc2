package panelbook.cli.command;

import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.Paths;
import panelbook.wire.Baseline;
import panelbook.wire.BaselineDraft;
import panelbook.wire.RunVerdict;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Commands on baselines. */
final class BaselineCommands {

    private BaselineCommands() {}

    @Command(
            footer = {
                "  panelbook baseline declare \"Suite 1/Main/HDR\" 4f1c9a52-0000-4000-8000-3d1f5a2b7c10 \\",
                "    --reason \"client asked for 5600 K\""
            },
            description = {
                "",
                "An as-left run becomes the baseline by itself when it verifies against its target; this is for a run that "
                        + "does not and is to be it all the same. Exit code 3 when something is beyond tolerance."
            })
    static final class Declare extends Action {
        @Parameters(index = "0", paramLabel = "PRESET", description = "ROOM/DISPLAY/PRESET or id.")
        String preset = "";

        @Parameters(
                index = "1",
                paramLabel = "RUN",
                description = "Id of an as-left run of it; panelbook run list shows them.")
        String run = "";

        @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "Why it is to be the baseline.")
        @Nullable
        String reason;

        @Override
        int work() {
            printer().checkFields(Verdicts.Outcome.class);
            var runId = Names.id("a run", run);
            var of = names().preset(preset);
            var verdict = service()
                    .post(
                            RunVerdict.class,
                            "/presets/" + of.id() + "/baselines",
                            new BaselineDraft(runId, or(reason, "")))
                    .value();
            var code = Verdicts.print(printer(), runId.toString(), verdict);
            printer().say("Run " + runId + " is the baseline of " + Paths.of(of) + ".");
            return code;
        }
    }

    @Command(footer = "  panelbook baseline list \"Suite 1/Main/HDR\"")
    static final class ListAll extends Action {
        @Parameters(paramLabel = "PRESET", description = "ROOM/DISPLAY/PRESET or id.")
        String preset = "";

        @Option(names = Past.OPTION, paramLabel = Past.TIME, description = Past.WORDS)
        @Nullable
        String asOf;

        @Override
        int work() {
            printer().checkFields(Baseline.class);
            var path = Past.of("/presets/" + names().preset(preset).id() + "/baselines", asOf);
            printer()
                    .list(
                            Baseline.class,
                            service().list(Baseline.class, path),
                            Views.baselines().columns());
            return 0;
        }
    }
}
