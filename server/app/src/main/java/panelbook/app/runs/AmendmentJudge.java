package panelbook.app.runs;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.signal.Reading;
import panelbook.wire.AlertNotice;
import panelbook.wire.JudgedAnew;
import panelbook.wire.RunVerdict;

/** Judges what depended on a mistake, in the transaction that puts the mistake right. */
public interface AmendmentJudge {

    /**
     * What was put right, as the book holds it by now.
     *
     * @param withdrawn runs that count no longer
     * @param entered runs that were entered in their stead
     * @param presets further presets to judge anew, such as those of matches that were withdrawn or entered
     * @param matches matches that count no longer
     * @param why the reason that a person gave
     * @param by who put it right
     */
    record Amendment(
            List<StoredRun> withdrawn,
            List<Entered> entered,
            Set<UUID> presets,
            Set<UUID> matches,
            String why,
            String by) {}

    /**
     * A run that was entered in the stead of a withdrawn one.
     *
     * @param readings in the order measured
     */
    record Entered(StoredRun run, PresetFacts preset, UUID insteadOf, List<Reading> readings) {}

    /**
     * What the judging came to.
     *
     * @param verdicts on the runs that were entered, by id
     */
    record Outcome(Map<UUID, RunVerdict> verdicts, List<JudgedAnew> judgedAnew, List<AlertNotice> alerts) {

        /** The verdict on a run that was entered; null when it was not. */
        public @Nullable RunVerdict verdict(UUID runId) {
            return verdicts.get(runId);
        }
    }

    /** Takes the locks that judging the presets needs; before anything that can touch an alert. */
    void lock(Collection<UUID> presetIds);

    /**
     * Withdraws the baselines of the withdrawn runs and puts back those before them, makes baselines of the runs entered that
     * deserve it, and judges every preset concerned as if the mistake had not been made.
     */
    Outcome judge(Amendment amendment);
}
