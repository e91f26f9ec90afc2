package panelbook.cli.match;

import java.util.List;
import org.jspecify.annotations.Nullable;
import panelbook.cli.terminal.Failure;
import panelbook.wire.Match;
import panelbook.wire.MatchStory;
import panelbook.wire.StepAnswer;

/**
 * What a sending did.
 *
 * @param opened the story, when this sending opened it
 * @param answers to the steps that went out, in order
 * @param news what a person must hear besides, a sentence or two each
 * @param signed the match, when this sending signed it off
 * @param stopped why something still waits; null when nothing does
 * @param refusedEnd why the service did not let it end; null when it was not asked, or did
 */
public record Sent(
        @Nullable MatchStory opened,
        List<StepAnswer> answers,
        List<String> news,
        @Nullable Match signed,
        @Nullable Failure stopped,
        @Nullable Failure refusedEnd) {}
