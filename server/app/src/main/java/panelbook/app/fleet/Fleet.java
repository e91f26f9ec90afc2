package panelbook.app.fleet;

import java.time.Instant;
import java.util.UUID;
import org.springframework.stereotype.Component;
import panelbook.wire.Preset;
import panelbook.wire.Target;
import panelbook.wire.ToleranceSet;

/** What the other parts ask of the fleet. All of it refuses an id that is not in the book. */
@Component
public class Fleet {

    private final Presets presets;
    private final Targets targets;
    private final ToleranceSets toleranceSets;
    private final PanelHoursBook panelHours;

    Fleet(Presets presets, Targets targets, ToleranceSets toleranceSets, PanelHoursBook panelHours) {
        this.presets = presets;
        this.targets = targets;
        this.toleranceSets = toleranceSets;
        this.panelHours = panelHours;
    }

    /** A preset as it stands now. */
    public Preset preset(UUID id) {
        return presets.get(id);
    }

    /** The path of a preset for people: facility/room/display/preset, with "-" for no room. */
    public static String path(Preset preset) {
        return PresetPath.of(preset);
    }

    /** A target in its present revision. */
    public Target target(UUID id) {
        return targets.get(id);
    }

    /** A tolerance set in its present revision. */
    public ToleranceSet toleranceSet(UUID id) {
        return toleranceSets.get(id);
    }

    /** Keeps a value of the panel-hours counter that came with a run; {@code hours} in h, at least 0. */
    public void keepPanelHours(UUID displayId, Instant at, double hours, UUID runId) {
        panelHours.addFromRun(displayId, at, hours, runId);
    }
}
