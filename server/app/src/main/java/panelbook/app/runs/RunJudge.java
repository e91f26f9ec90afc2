package panelbook.app.runs;

import java.util.List;
import panelbook.colorimetry.signal.Reading;
import panelbook.wire.RunVerdict;

/** Judges a run in the transaction that stores it. */
public interface RunJudge {

    /**
     * Judges a run that was just stored.
     *
     * @param run the run
     * @param preset of the run
     * @param readings its readings, in the order measured
     * @param baselineReason why it is to be the baseline although it does not verify; null when nobody asked for that
     */
    RunVerdict judge(
            StoredRun run,
            PresetFacts preset,
            List<Reading> readings,
            @org.jspecify.annotations.Nullable String baselineReason);
}
