package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What became of a run that was withdrawn; a repeat gets the first answer.
 *
 * @param run the run, with its withdrawal
 * @param verdict on the same readings as entered again; null when they were not, or stood there already
 * @param judgedAnew presets that were judged anew
 * @param alerts alerts that this opened, updated or closed
 */
public record WithdrawnRun(
        Run run, @Nullable RunVerdict verdict, List<JudgedAnew> judgedAnew, List<AlertNotice> alerts) {}
