package panelbook.wire;

import java.util.List;
import java.util.UUID;

/**
 * The clicks that bring a follower nearest to its hero and the offset aimed at.
 *
 * @param follower path
 * @param hero path
 * @param offsetSource where the offset comes from
 * @param aim in words, with the figures
 * @param followerRunId the run that shows where the follower is
 * @param heroRunId the run that shows where the hero is
 * @param corrections of the meters that those two runs are read with, by name, place and version
 * @param changes of every control that may be turned, unchanged ones included
 * @param rest what is expected to be left at each grey: wanted less reached
 * @param costBefore distance before, in squares of tolerances summed over greys and figures
 * @param costAfter expected distance after, likewise
 * @param whyNotMore what stands in the way of a smaller rest
 * @param effectUnknown controls left out, since no step tells what they do
 */
public record TrimSuggestion(
        UUID followerPresetId,
        String follower,
        UUID heroPresetId,
        String hero,
        String operator,
        OffsetSource offsetSource,
        String aim,
        UUID followerRunId,
        UUID heroRunId,
        List<String> corrections,
        List<TrimChange> changes,
        List<ExpectedRest> rest,
        double costBefore,
        double costAfter,
        List<WhyNotMore> whyNotMore,
        List<String> effectUnknown) {}
