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
        var agreed = of(matches);
        return matches.stream()
                .map(match -> with(match, agreed.get(match.id())))
                .toList();
    }

    /** The agreed offsets by match, greys included; unmeasured ones are left out. */
    Map<UUID, AgreedOffset> of(Collection<Match> matches) {
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
        var measured = runs.greysOf(runIds, facts);
        return matches.stream()
                .filter(match -> match.followerRunId() != null && match.heroRunId() != null)
                .collect(Collectors.toMap(
                        Match::id,
                        match -> between(run(measured, match.followerRunId()), run(measured, match.heroRunId()))));
    }

    /** Follower less hero; the difference of two readings by the same meter on like panels has its repeatability alone. */
    static AgreedOffset between(RunMeasured follower, RunMeasured hero) {
        return AgreedOffset.of(follower.measured(), hero.measured());
    }

    private static RunMeasured run(Map<UUID, RunMeasured> measured, @Nullable UUID id) {
        return Optional.ofNullable(id).map(measured::get).orElseThrow();
    }

    private static Match with(Match match, @Nullable AgreedOffset agreed) {
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
                agreed == null ? null : shown(agreed),
                match.trims(),
                match.material(),
                match.remarks(),
                match.signedAt(),
                match.recordedBy(),
                match.inForce(),
                match.inQuestion(),
                match.withdrawn());
    }

    /** Null when a run holds no white that the meter can tell from nothing. */
    private static panelbook.wire.@Nullable AgreedOffset shown(AgreedOffset agreed) {
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
                100 * Math.exp(ln.value()) * ln.standardUncertainty());
    }
}
