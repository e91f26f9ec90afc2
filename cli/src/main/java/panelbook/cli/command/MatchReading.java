package panelbook.cli.command;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.cli.match.Opened;
import panelbook.cli.spool.SpoolEntry;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Purpose;
import panelbook.wire.files.RunMetadata;
import picocli.CommandLine;
import picocli.CommandLine.ParameterException;

/** Takes a run into a match: by the same way as {@code run upload}, spool included. */
final class MatchReading {

    private final Connection connection;
    private final Opened opened;

    MatchReading(Connection connection, Opened opened) {
        this.connection = connection;
        this.opened = opened;
    }

    /**
     * A run that was uploaded, or that waits in the spool.
     *
     * @param ofHero whether it is of the hero
     */
    record Taken(UUID runId, boolean ofHero) {}

    /**
     * Uploads a run.
     *
     * @param said file, then options as {@code run upload} takes them
     */
    Taken take(List<String> said) {
        var uploading = new RunUploading();
        uploading.connect(connection);
        parse(uploading, said);
        var draft = opened.draft();
        var uploaded = uploading.uploadOne(
                new RunMetadata(null, opened.instrument(), Purpose.MATCH, null, null, null, null, null));
        var run = uploaded.runId();
        var preset = uploaded.presetId();
        if (run == null || preset == null) {
            throw Failure.failed(
                    "The run is in the spool, but this machine does not know its preset or instrument, so it is no"
                            + " step yet. Once the service is back, type read with the same file again.");
        }
        if (!preset.equals(draft.followerPresetId()) && !preset.equals(draft.heroPresetId())) {
            throw Failure.failed("The run is of neither the follower (" + opened.follower() + ") nor the hero ("
                    + opened.hero() + "). It is kept as a run, and is no step of this match.");
        }
        return new Taken(run, preset.equals(draft.heroPresetId()));
    }

    private static void parse(RunUploading uploading, List<String> said) {
        try {
            var spec = CommandIndex.spec("run upload", uploading);
            (spec == null ? new CommandLine(uploading) : new CommandLine(spec)).parseArgs(said.toArray(new String[0]));
        } catch (ParameterException e) {
            throw Failure.usage("read " + String.join(" ", said) + ": " + e.getMessage()
                    + ". Type read FILE, with options as run upload takes them where the file leaves something out.");
        }
    }

    /** Whether a run waits in the spool. */
    boolean waits(UUID run) {
        return connection.spool().waiting().stream().anyMatch(entry -> run.equals(id(entry)));
    }

    private static @Nullable UUID id(SpoolEntry entry) {
        var run = entry.run();
        return run == null || run.presetId() == null || run.instrumentId() == null
                ? null
                : run.upload(run.presetId(), run.instrumentId()).id();
    }
}
