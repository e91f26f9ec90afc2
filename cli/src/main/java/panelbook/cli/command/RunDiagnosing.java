package panelbook.cli.command;

import static panelbook.cli.terminal.Column.of;

import java.io.IOException;
import java.nio.file.Files;
import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.service.Names;
import panelbook.cli.service.ServiceAway;
import panelbook.cli.terminal.Column;
import panelbook.cli.terminal.ExitCode;
import panelbook.cli.terminal.Failure;
import panelbook.wire.DiagnosedExplanation;
import panelbook.wire.Diagnosis;
import panelbook.wire.Target;
import panelbook.wire.files.CodeRange;
import panelbook.wire.files.RunFileProblem;
import panelbook.wire.files.RunFileReader;
import panelbook.wire.files.RunFileResult;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Tells from a grey ramp what happened to the signal: of a run through the service, of a file on this machine. */
@Command(
        footer = {
            "  panelbook run diagnose 4f1c9a52-0000-4000-8000-3d1f5a2b7c10",
            "  panelbook run diagnose ramp.csv --preset \"Suite 1/Client/HDR\"",
            "  panelbook run diagnose ramp.csv --target \"HDR 1000\""
        },
        description = {
            "",
            "The likeliest explanation of the ramp, the next, how far it is behind, and what to check first. A run is read with "
                    + "the correction of its meter; a file is taken as it is, uploads nothing, and needs no service once its "
                    + "target was seen. Exit code 3 when the signal path is suspect: make no trims before that is ruled out."
        })
final class RunDiagnosing extends Action {

    /**
     * What the ramp says.
     *
     * @param source id of the run, or name of the file
     */
    record Diagnosed(
            String source,
            String summary,
            String likeliest,
            @Nullable String runnerUp,
            @Nullable Double margin,
            List<String> notToldApart,
            boolean suspect,
            String firstCheck,
            int levels,
            List<String> corrections,
            List<DiagnosedExplanation> ranking) {}

    private static final List<Column<Diagnosed>> FIELDS = List.of(
            of("SOURCE", Diagnosed::source),
            of("SUMMARY", Diagnosed::summary),
            of("LIKELIEST", Diagnosed::likeliest),
            of("RUNNER-UP", Diagnosed::runnerUp),
            of("MARGIN", d -> d.margin() == null ? null : Verdicts.rounded(d.margin())),
            of("NOT TOLD APART", d -> String.join(", ", d.notToldApart())),
            of("SUSPECT", Diagnosed::suspect),
            of("CHECK FIRST", Diagnosed::firstCheck),
            of("LEVELS", Diagnosed::levels),
            of("CORRECTED", d -> String.join("; ", d.corrections())));

    private static final List<Column<DiagnosedExplanation>> RANKING = List.of(
            of("EXPLANATION", DiagnosedExplanation::explanation),
            of("RESIDUAL %", e -> Verdicts.rounded(e.residualPercent())),
            of("SCORE", e -> Verdicts.rounded(e.score())),
            of("WHITE cd/m²", e -> Verdicts.rounded(e.whiteLuminance())),
            of("BLACK cd/m²", e -> Verdicts.rounded(e.blackLuminance())));

    private static final int MOST_PROBLEMS = 20;

    @Parameters(paramLabel = "RUN|FILE", description = "Id of a run, or a run file that need not be uploaded.")
    String source = "";

    @Option(
            names = "--preset",
            paramLabel = "PRESET",
            description = "Of a file that does not name it: ROOM/DISPLAY/PRESET or id.")
    @Nullable
    String preset;

    @Option(names = "--target", paramLabel = "TARGET", description = "What a file was meant for, instead of a preset.")
    @Nullable
    String target;

    @Override
    int work() {
        printer().checkFields(Diagnosed.class);
        var diagnosed = Names.isId(source) ? ofRun() : ofFile();
        printer().one(Diagnosed.class, diagnosed, FIELDS);
        if (!printer().isJson()) {
            printer().list(DiagnosedExplanation.class, diagnosed.ranking(), RANKING);
        }
        return diagnosed.suspect() ? ExitCode.BEYOND : ExitCode.DONE;
    }

    private Diagnosed ofRun() {
        if (preset != null || target != null) {
            throw Failure.usage("--preset and --target go with a file: a run in the book has its own.");
        }
        var d = service().get(Diagnosis.class, "/runs/" + source + "/diagnosis");
        return new Diagnosed(
                source,
                d.summary(),
                d.likeliest(),
                d.runnerUp(),
                d.margin(),
                d.notToldApart(),
                d.suspect(),
                d.firstCheck(),
                d.levels(),
                d.corrections(),
                d.ranking());
    }

    private Diagnosed ofFile() {
        var read = read();
        var aim = aim(read);
        var range = CodeRange.of(aim.signalRange(), aim.bitDepth());
        if (RunFileReader.checkCodes(read, source, range) instanceof RunFileResult.Refused refused) {
            throw Failure.failed(refused.problems().get(0).text() + " It does not fit target " + aim.name()
                    + ". Is that the right one?");
        }
        return LocalDiagnosis.of(source, aim, read.run().entries());
    }

    private RunFileResult.Read read() {
        try (var in = source.equals("-") ? at().in() : Files.newInputStream(at().file(source))) {
            var result = RunFileReader.read(in, source);
            if (result instanceof RunFileResult.Read read) {
                return read;
            }
            throw refused((RunFileResult.Refused) result);
        } catch (IOException e) {
            throw Failure.failed(
                    source + " cannot be read: " + FileReasons.of(e)
                            + " To diagnose a run in the book, give its id; panelbook run list shows it.",
                    e);
        }
    }

    private Failure refused(RunFileResult.Refused refused) {
        var places = refused.problems().stream()
                .limit(MOST_PROBLEMS)
                .map(RunFileProblem::text)
                .toList();
        return Failure.failedAt(source + " cannot be read as a run; " + refused.total() + " to mend:", places);
    }

    private Target aim(RunFileResult.Read read) {
        if (target != null) {
            return names().target(target);
        }
        var named = preset == null ? read.run().metadata().preset() : preset;
        if (named == null) {
            throw Failure.usage(source + " does not name its preset. Give it by --preset, or a target by --target.");
        }
        try {
            return names().target(names().preset(named).targetId().toString());
        } catch (ServiceAway away) {
            var known = names().remembered().preset(named);
            var seen = known == null ? null : names().remembered().target(known.targetId());
            if (seen == null) {
                throw away;
            }
            printer().say("The service is away: diagnosed against " + seen.name() + " as last seen.");
            return seen;
        }
    }
}
