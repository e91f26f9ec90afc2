package panelbook.app.sheet;

import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.UUID;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import panelbook.app.assessment.FindingBook;
import panelbook.app.assessment.FindingBook.Standing;
import panelbook.app.runs.PresetFacts;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.runs.StoredRun;
import panelbook.wire.Display;
import panelbook.wire.Finding;
import panelbook.wire.Preset;
import panelbook.wire.Rule;
import panelbook.wire.Run;

/** What the book holds on the presets of a room, read for all of them at once. */
record Known(
        Map<UUID, PresetFacts> presets,
        Map<UUID, Display> displays,
        Map<UUID, UUID> latestRuns,
        Map<UUID, Run> runs,
        Map<UUID, List<Standing>> standing) {

    static Known of(
            List<Preset> presets, List<Display> displays, PresetFactsBook facts, RunBook runs, FindingBook findings) {
        var ids = presets.stream().map(Preset::id).toList();
        var latest = runs.latestOf(ids).stream().collect(Collectors.toMap(StoredRun::presetId, StoredRun::id));
        var wanted = Stream.concat(
                        latest.values().stream(),
                        presets.stream().map(Preset::baselineRunId).filter(Objects::nonNull))
                .collect(Collectors.toSet());
        return new Known(
                facts.findAll(ids),
                displays.stream().collect(Collectors.toMap(Display::id, Function.identity())),
                latest,
                runs.shown(wanted),
                findings.standingOf(ids).stream()
                        .collect(Collectors.groupingBy(one -> one.finding().presetId())));
    }

    PresetFacts facts(Preset preset) {
        return Objects.requireNonNull(presets.get(preset.id()), "facts of a preset");
    }

    Display display(Preset preset) {
        return Objects.requireNonNull(displays.get(preset.displayId()), "display of a preset");
    }

    @Nullable
    Run baseline(Preset preset) {
        var id = preset.baselineRunId();
        return id == null ? null : runs.get(id);
    }

    @Nullable
    Run latest(Preset preset) {
        var id = latestRuns.get(preset.id());
        return id == null ? null : runs.get(id);
    }

    /** Standing findings of its own drift and of the drift from its hero. */
    List<Finding> drift(Preset preset, boolean setAside) {
        return standing.getOrDefault(preset.id(), List.of()).stream()
                .filter(one -> one.setAside() == setAside)
                .map(Standing::finding)
                .filter(finding -> finding.rule() == Rule.OWN_DRIFT || finding.rule() == Rule.HERO_DRIFT)
                .toList();
    }
}
