package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What became of a match that was withdrawn; a repeat gets the first answer.
 *
 * @param match the match, with its withdrawal
 * @param replacement the match as entered again, null when it was not
 * @param judgedAnew presets that were judged anew
 * @param alerts alerts that this opened, updated or closed
 */
public record WithdrawnMatch(
        Match match, @Nullable Match replacement, List<JudgedAnew> judgedAnew, List<AlertNotice> alerts) {}
