package panelbook.app.corrections;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import panelbook.app.assessment.FindingBook;
import panelbook.app.corrections.RunPairs.RunPair;
import panelbook.app.database.Rows;
import panelbook.app.runs.MeasuredRuns;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.RunMeasured;
import panelbook.app.runs.StoredRun;
import panelbook.colorimetry.ColourDifference;
import panelbook.colorimetry.XYZ;
import panelbook.colorimetry.correction.Change;
import panelbook.colorimetry.correction.Changes;
import panelbook.colorimetry.correction.FourColourMatrix;
import panelbook.colorimetry.signal.Reading;
import panelbook.wire.Correction;
import panelbook.wire.CorrectionPreview;
import panelbook.wire.Finding;
import panelbook.wire.FindingChange;
import panelbook.wire.PatchMoves;
import panelbook.wire.ReReadPreset;
import panelbook.wire.WhiteMove;

/** Looks at what rests on the readings of a meter, to tell how a correction changes it. */
@Component
class Previews {

    private final JdbcClient jdbc;
    private final MeasuredRuns measured;
    private final RunBook runs;
    private final PresetFactsBook presets;
    private final FindingBook findings;

    Previews(JdbcClient jdbc, MeasuredRuns measured, RunBook runs, PresetFactsBook presets, FindingBook findings) {
        this.jdbc = jdbc;
        this.measured = measured;
        this.runs = runs;
        this.presets = presets;
        this.findings = findings;
    }

    /**
     * How things stand.
     *
     * @param field the field run as it is read
     * @param latest by preset, the run that shows how it stands, its greys as they are read
     * @param baseline by preset, the run of its baseline, its greys as they are read
     * @param findings those that stand, by preset
     */
    record Look(
            RunMeasured field,
            Map<UUID, PresetFacts> presets,
            Map<UUID, RunMeasured> latest,
            Map<UUID, RunMeasured> baseline,
            Map<UUID, List<Finding>> findings) {

        FourColourMatrix matrix() {
            var correction = field.correction();
            return correction == null ? FourColourMatrix.NONE : correction.matrix();
        }
    }

    Look look(RunPair pair, List<UUID> presetIds) {
        var facts = presets.findAll(presetIds);
        var latest = runs.latestOf(presetIds).stream().collect(Collectors.toMap(StoredRun::presetId, StoredRun::id));
        var baselines = baselinesOf(presetIds);
        var ids = new LinkedHashSet<>(latest.values());
        ids.addAll(baselines.values());
        var greys = measured.greysOf(ids, facts);
        return new Look(
                measured.of(pair.preset(), pair.fieldRun(), pair.field().all()),
                facts,
                measuredOf(latest, greys),
                measuredOf(baselines, greys),
                findings.standingOf(presetIds).stream()
                        .filter(standing -> !standing.setAside())
                        .map(FindingBook.Standing::finding)
                        .collect(Collectors.groupingBy(Finding::presetId)));
    }

    private Map<UUID, UUID> baselinesOf(List<UUID> presetIds) {
        var found = new HashMap<UUID, UUID>();
        jdbc.sql(
                        "select preset_id, run_id from counted_baseline where preset_id = any (:presets) and upper_inf(during)")
                .param("presets", presetIds.toArray(new UUID[0]))
                .query(row -> {
                    found.put(Rows.id(row, "preset_id"), Rows.id(row, "run_id"));
                });
        return found;
    }

    private static Map<UUID, RunMeasured> measuredOf(Map<UUID, UUID> runsByPreset, Map<UUID, RunMeasured> greys) {
        var found = new HashMap<UUID, RunMeasured>();
        runsByPreset.forEach(
                (preset, run) -> Optional.ofNullable(greys.get(run)).ifPresent(r -> found.put(preset, r)));
        return found;
    }

    /** What a correction changes, from how things stood before it and after. */
    CorrectionPreview compare(Correction correction, RunPair pair, Look before, Look after) {
        return new CorrectionPreview(
                correction,
                before.field().correctionName().orElse(null),
                after.field().correctionName().orElse(null),
                moves(Changes.whenReplaced(
                        before.matrix(), after.matrix(), pair.field().all())),
                white(before.field(), after.field()).orElseThrow(), // the correction was made from it
                moves(Changes.fromReference(before.matrix(), pair.reference(), pair.field())),
                moves(Changes.fromReference(after.matrix(), pair.reference(), pair.field())),
                before.presets().values().stream()
                        .map(preset -> preset(preset, before, after))
                        .filter(Previews::changed)
                        .sorted(java.util.Comparator.comparing(ReReadPreset::preset))
                        .toList());
    }

    private static boolean changed(ReReadPreset preset) {
        return preset.latest() != null
                || preset.baseline() != null
                || !preset.findings().isEmpty();
    }

    private static PatchMoves moves(Changes changes) {
        return new PatchMoves(
                changes.all().size(),
                boxed(changes.meanDeltaEItp()),
                changes.largest().map(Change::deltaEItp).orElse(null),
                changes.largest().map(largest -> largest.patch().toString()).orElse(null),
                boxed(changes.largestDeltaUv()));
    }

    private static ReReadPreset preset(PresetFacts preset, Look before, Look after) {
        var id = preset.presetId();
        return new ReReadPreset(
                id,
                preset.path(),
                moved(before.latest().get(id), after.latest().get(id)),
                moved(before.baseline().get(id), after.baseline().get(id)),
                changes(
                        before.findings().getOrDefault(id, List.of()),
                        after.findings().getOrDefault(id, List.of())));
    }

    private static @Nullable WhiteMove moved(@Nullable RunMeasured before, @Nullable RunMeasured after) {
        if (before == null || after == null || before.correctionName().equals(after.correctionName())) {
            return null;
        }
        return white(before, after).orElse(null);
    }

    private static Optional<WhiteMove> white(RunMeasured before, RunMeasured after) {
        var was = before.readings().white().map(Reading::xyz);
        var is = after.readings().white().map(Reading::xyz);
        return was.isPresent() && is.isPresent() ? white(was.get(), is.get()) : Optional.empty();
    }

    private static Optional<WhiteMove> white(XYZ was, XYZ is) {
        if (was.y() <= 0) {
            return Optional.empty();
        }
        return was.uv1976()
                .flatMap(from -> is.uv1976()
                        .map(to -> new WhiteMove(
                                was.y(),
                                from.u(),
                                from.v(),
                                is.y(),
                                to.u(),
                                to.v(),
                                100 * (is.y() / was.y() - 1),
                                ColourDifference.uv1976(from, to))));
    }

    private static List<FindingChange> changes(List<Finding> before, List<Finding> after) {
        var was = bySlot(before);
        var is = bySlot(after);
        var changes = new ArrayList<FindingChange>();
        Stream.concat(was.keySet().stream(), is.keySet().stream())
                .distinct()
                .forEach(slot -> change(was.get(slot), is.get(slot)).ifPresent(changes::add));
        return changes;
    }

    private static Map<List<Object>, Finding> bySlot(List<Finding> findings) {
        var bySlot = new LinkedHashMap<List<Object>, Finding>();
        findings.forEach(f -> bySlot.put(List.of(f.metric(), Optional.ofNullable(f.matchId())), f));
        return bySlot;
    }

    private static Optional<FindingChange> change(@Nullable Finding was, @Nullable Finding is) {
        var one = was == null ? is : was;
        if (one == null || was != null && is != null && was.decision() == is.decision()) {
            return Optional.empty();
        }
        return Optional.of(new FindingChange(
                one.metric(),
                one.unit(),
                was == null ? null : was.decision(),
                was == null ? null : was.value(),
                is == null ? null : is.decision(),
                is == null ? null : is.value()));
    }

    private static @Nullable Double boxed(OptionalDouble value) {
        return value.isPresent() ? value.getAsDouble() : null;
    }
}
