package panelbook.app.matching;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunMeasured;
import panelbook.colorimetry.drift.AgreedOffset;
import panelbook.wire.Match;

/** Works out agreed offsets from closing runs as they are to be read, so that corrections of the meters count. */
@Component
class Offsets {

    private final MeasuredRuns runs;
    private final PresetFactsBook presets;

    Offsets(MeasuredRuns runs, PresetFactsBook presets) {
        this.runs = runs;
        this.presets = presets;
    }

    /** The matches with their agreed offsets; an unmeasured one stays as it is. */
    List<Match> measured(List<Match> matches) {
        var runs = closingRuns(matches);
        return matches.stream().map(match -> with(match, shown(match, runs))).toList();
    }

    /** The agreed offsets by match, greys included; unmeasured ones are left out. */
    Map<UUID, AgreedOffset> of(Collection<Match> matches) {
        var runs = closingRuns(matches);
        return matches.stream()
                .filter(Offsets::isMeasured)
                .collect(Collectors.toMap(
                        Match::id, match -> between(run(runs, match.followerRunId()), run(runs, match.heroRunId()))));
    }

    private static boolean isMeasured(Match match) {
        return match.followerRunId() != null && match.heroRunId() != null;
    }

    private Map<UUID, RunMeasured> closingRuns(Collection<Match> matches) {
        var runIds = matches.stream()
                .flatMap(match -> Stream.of(
                                Optional.ofNullable(match.followerRunId()), Optional.ofNullable(match.heroRunId()))
                        .flatMap(Optional::stream))
                .collect(Collectors.toSet());
        if (runIds.isEmpty()) {
            return Map.of();
        }
        var facts = presets.findAll(matches.stream()
                .flatMap(match -> Stream.of(match.followerPresetId(), match.heroPresetId()))
                .collect(Collectors.toSet()));
        return runs.greysOf(runIds, facts);
    }

    /** Follower less hero; the difference of two readings by the same meter on like panels has its repeatability alone. */
    static AgreedOffset between(RunMeasured follower, RunMeasured hero) {
        return AgreedOffset.of(follower.measured(), hero.measured());
    }

    private static RunMeasured run(Map<UUID, RunMeasured> measured, @Nullable UUID id) {
        return Optional.ofNullable(id).map(measured::get).orElseThrow();
    }

    private static Match with(Match match, panelbook.wire.@Nullable AgreedOffset agreed) {
        return new Match(
                match.id(),
                match.storyId(),
                match.followerPresetId(),
                match.follower(),
                match.heroPresetId(),
                match.hero(),
                match.operator(),
                match.followerRunId(),
                match.heroRunId(),
                agreed,
                match.trims(),
                match.material(),
                match.remarks(),
                match.signedAt(),
                match.recordedBy(),
                match.inForce(),
                match.inQuestion(),
                match.withdrawn());
    }

    /** Null when the match is unmeasured, or a run holds no white that the meter can tell from nothing. */
    private static panelbook.wire.@Nullable AgreedOffset shown(Match match, Map<UUID, RunMeasured> runs) {
        return isMeasured(match) ? shown(run(runs, match.followerRunId()), run(runs, match.heroRunId())) : null;
    }

    private static panelbook.wire.@Nullable AgreedOffset shown(RunMeasured follower, RunMeasured hero) {
        var agreed = between(follower, hero);
        if (agreed.white().isEmpty() || agreed.luminance().isEmpty()) {
            return null;
        }
        var white = agreed.white().get();
        var ln = agreed.luminance().get();
        return new panelbook.wire.AgreedOffset(
                white.u().value(),
                white.v().value(),
                white.distance().value(),
                100 * Math.expm1(ln.value()),
                Math.max(white.u().standardUncertainty(), white.v().standardUncertainty()),
                100 * Math.exp(ln.value()) * ln.standardUncertainty(),
                RunMeasured.correctionNames(follower, hero));
    }
}
