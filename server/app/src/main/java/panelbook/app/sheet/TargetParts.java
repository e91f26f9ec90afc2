package panelbook.app.sheet;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import panelbook.app.assessment.FindingBook;
import panelbook.app.fleet.RoomContents;
import panelbook.app.runs.PresetFactsBook;
import panelbook.app.runs.RunBook;
import panelbook.app.signalpath.Diagnoses;
import panelbook.wire.Display;
import panelbook.wire.Preset;
import panelbook.wire.SheetPreset;
import panelbook.wire.SheetTarget;

/** The targets on a sheet, each with its presets: how they were left and how they have drifted since. */
@Component
class TargetParts {

    private final RoomContents contents;
    private final PresetFactsBook facts;
    private final RunBook runs;
    private final FindingBook findings;
    private final AsLeftFigures asLeft;
    private final Diagnoses diagnoses;

    TargetParts(
            RoomContents contents,
            PresetFactsBook facts,
            RunBook runs,
            FindingBook findings,
            AsLeftFigures asLeft,
            Diagnoses diagnoses) {
        this.diagnoses = diagnoses;
        this.contents = contents;
        this.facts = facts;
        this.runs = runs;
        this.findings = findings;
        this.asLeft = asLeft;
    }

    /** By target, the hero first. */
    List<SheetTarget> of(List<Preset> presets, List<Display> displays, Instant now) {
        var byTarget =
                presets.stream().collect(Collectors.groupingBy(Preset::target, TreeMap::new, Collectors.toList()));
        var known = Known.of(presets, displays, facts, runs, findings);
        return byTarget.values().stream()
                .map(aiming -> target(aiming, known, now))
                .toList();
    }

    private SheetTarget target(List<Preset> aiming, Known known, Instant now) {
        var target = contents.target(aiming.get(0).targetId());
        var sheets = aiming.stream()
                .sorted(Comparator.comparing(preset -> !preset.hero()))
                .map(preset -> preset(preset, known, now))
                .toList();
        var warmUp = known.facts(aiming.get(0)).warmUpMinutes();
        return new SheetTarget(target, AimWords.of(target), warmUp, sheets);
    }

    private SheetPreset preset(Preset preset, Known known, Instant now) {
        var baseline = known.baseline(preset);
        return new SheetPreset(
                preset,
                baseline == null ? null : asLeft.of(baseline, known.facts(preset), known.display(preset), now),
                known.latest(preset),
                known.drift(preset, false),
                known.drift(preset, true),
                diagnoses.latestOf(known.facts(preset)).orElse(null));
    }
}
