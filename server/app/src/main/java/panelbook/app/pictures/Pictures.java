package panelbook.app.pictures;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Isolation;
import org.springframework.transaction.annotation.Transactional;
import panelbook.app.assessment.FindingBook;
import panelbook.app.assessment.Limits;
import panelbook.app.matching.Agreement;
import panelbook.app.matching.Matches;
import panelbook.app.planning.Outlooks;
import panelbook.app.rest.Refusal;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.RunMeasured;
import panelbook.wire.Drawing;
import panelbook.wire.DrawingName;
import panelbook.wire.Metric;
import panelbook.wire.ReadingRef;

/** Gathers drawings. */
@Component
public class Pictures {

    private static final int LEAST_LEVELS = 3;
    private static final int LOOKED_THROUGH = 12;

    private final PresetFactsBook presets;
    private final MeasuredRuns measured;
    private final RunBook runs;
    private final Outlooks outlooks;
    private final Matches matches;
    private final FindingBook findings;
    private final Limits limits;

    Pictures(
            PresetFactsBook presets,
            MeasuredRuns measured,
            RunBook runs,
            Outlooks outlooks,
            Matches matches,
            FindingBook findings,
            Limits limits) {
        this.presets = presets;
        this.measured = measured;
        this.runs = runs;
        this.outlooks = outlooks;
        this.matches = matches;
        this.findings = findings;
        this.limits = limits;
    }

    /**
     * A drawing of a preset, retired or not, all of it from one state of the book.
     *
     * @throws Refusal when there is no such preset
     */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public Drawing of(UUID presetId, DrawingName name) {
        return of(story(presetId), name);
    }

    /** All drawings of a preset, in the order of their names' declaration. */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public List<Drawing> of(UUID presetId) {
        var story = story(presetId);
        return Arrays.stream(DrawingName.values()).map(name -> of(story, name)).toList();
    }

    /** The drawings of what lies ahead of a preset. */
    @Transactional(readOnly = true, isolation = Isolation.REPEATABLE_READ)
    public List<Drawing> forecast(UUID presetId) {
        var story = story(presetId);
        return List.of(of(story, DrawingName.PEAK_LUMINANCE), of(story, DrawingName.WHITE_DRIFT));
    }

    private static Drawing of(Story story, DrawingName name) {
        return switch (name) {
            case PEAK_LUMINANCE -> Ageing.of(story, Metric.OWN_DRIFT_LUMINANCE);
            case WHITE_DRIFT -> Ageing.of(story, Metric.OWN_DRIFT_WHITE);
            case WHITE -> White.of(story);
            case GREY_DELTA_E -> Greys.deltaE(story);
            case GREY_LUMINANCE -> Greys.luminance(story);
            case EOTF -> Tone.of(story);
            case GAMUT -> Gamut.of(story);
            case CONTRAST -> Contrasts.of(story);
            case MATCH_WHITE -> Residuals.of(story, Metric.HERO_DRIFT_WHITE);
            case MATCH_LUMINANCE -> Residuals.of(story, Metric.HERO_DRIFT_LUMINANCE);
        };
    }

    private Story story(UUID presetId) {
        var preset = presets.find(presetId).orElseThrow(() -> Refusal.notFound("preset", presetId));
        var forecast = outlooks.forecast(presetId);
        var greys = standing(preset);
        var agreements = matches.inForceOf(List.of(presetId)).stream()
                .filter(agreement -> agreement.followerPresetId().equals(presetId))
                .sorted(Comparator.comparing(Agreement::operator))
                .toList();
        var residuals = findings.historyOf(presetId, List.of(Metric.HERO_DRIFT_WHITE, Metric.HERO_DRIFT_LUMINANCE));
        var named = new HashSet<UUID>();
        greys.forEach(run -> named.add(run.id()));
        forecast.figures().forEach(figure -> figure.points().forEach(point -> named.add(point.runId())));
        residuals.stream()
                .flatMap(finding -> Stream.concat(
                        Optional.ofNullable(finding.runId()).stream(),
                        finding.readings().stream().map(ReadingRef::runId)))
                .forEach(named::add);
        return new Story(
                preset,
                forecast,
                greys,
                runs.shown(named),
                ramp(preset),
                primaries(preset, greys),
                agreements,
                closing(preset, agreements),
                heroWhite(agreements),
                residuals,
                metric -> limits.of(preset, metric));
    }

    /** The runs that showed how the preset stood, oldest first, with their greys. */
    private List<RunMeasured> standing(PresetFacts preset) {
        var facts = Map.of(preset.presetId(), preset);
        var whites = measured.whitesOf(facts, Map.of()).getOrDefault(preset.presetId(), List.of());
        var greys = measured.greysOf(whites.stream().map(RunMeasured::id).toList(), facts);
        return whites.stream()
                .map(white -> greys.getOrDefault(white.id(), white))
                .toList();
    }

    private @Nullable RunMeasured ramp(PresetFacts preset) {
        var codes = preset.target().codes();
        return runs.latestRampOf(preset.presetId(), codes.black(), codes.white(), LEAST_LEVELS)
                .map(run -> measured.of(preset, run))
                .orElse(null);
    }

    private @Nullable RunMeasured primaries(PresetFacts preset, List<RunMeasured> greys) {
        return IntStream.range(0, greys.size())
                .mapToObj(i -> greys.get(greys.size() - 1 - i))
                .filter(run -> run.run().readingCount() > run.readings().all().size() + 2)
                .limit(LOOKED_THROUGH)
                .map(run -> measured.whole(preset, run.id()))
                .filter(run -> IntStream.range(0, 3)
                        .allMatch(channel -> run.readings().primary(channel).isPresent()))
                .findFirst()
                .orElse(null);
    }

    private Map<UUID, RunMeasured> closing(PresetFacts preset, List<Agreement> agreements) {
        var ids = agreements.stream()
                .flatMap(agreement -> Stream.of(
                                Optional.ofNullable(agreement.followerRunId()),
                                Optional.ofNullable(agreement.heroRunId()))
                        .flatMap(Optional::stream))
                .toList();
        var facts = new java.util.HashMap<>(presets.findAll(heroes(agreements)));
        facts.put(preset.presetId(), preset);
        return measured.greysOf(ids, facts);
    }

    private static Set<UUID> heroes(Collection<Agreement> agreements) {
        var ids = new HashSet<UUID>();
        agreements.forEach(agreement -> ids.add(agreement.heroPresetId()));
        return ids;
    }

    /** A follower has one hero at a time for its target. */
    private @Nullable RunMeasured heroWhite(List<Agreement> agreements) {
        var whites = new ArrayList<RunMeasured>();
        measured.whitesOf(presets.findAll(heroes(agreements)), Map.of())
                .values()
                .forEach(whites::addAll);
        return whites.stream()
                .max(Comparator.comparing(run -> run.run().takenAt()))
                .orElse(null);
    }
}
