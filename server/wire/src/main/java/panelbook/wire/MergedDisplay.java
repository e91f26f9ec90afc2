package panelbook.wire;

import java.time.Instant;
import java.util.List;

/**
 * What became of a display that had been entered twice; a repeat gets the first answer.
 *
 * @param duplicate retired now
 * @param kept the display that has everything now
 * @param presets where the runs and matches of each preset of the duplicate went
 * @param quirks how many open quirks were copied
 * @param panelHours how many values of the counter that a person had read were copied
 * @param mergedBy holder of the token
 * @param judgedAnew presets that were judged anew
 * @param alerts alerts that this opened, updated or closed
 */
public record MergedDisplay(
        Display duplicate,
        Display kept,
        List<MergedPreset> presets,
        int quirks,
        int panelHours,
        String reason,
        Instant mergedAt,
        String mergedBy,
        List<JudgedAnew> judgedAnew,
        List<AlertNotice> alerts) {

    /**
     * A preset of the duplicate.
     *
     * @param from path before the merger
     * @param to path of the preset that has its runs now
     * @param runs how many were entered again
     * @param matches how many were entered again
     * @param hero whether the kept preset took over as a hero
     */
    public record MergedPreset(String from, String to, int runs, int matches, boolean hero) {}
}
