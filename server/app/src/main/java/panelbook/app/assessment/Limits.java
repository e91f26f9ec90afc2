package panelbook.app.assessment;

import java.util.OptionalDouble;
import org.springframework.stereotype.Component;
import panelbook.app.runs.PresetFacts;
import panelbook.wire.Metric;

/** The limits that presets are judged by. */
@Component
public class Limits {

    private final ToleranceBook tolerances;

    Limits(ToleranceBook tolerances) {
        this.tolerances = tolerances;
    }

    /** The limit of a metric, in its unit, of the tolerance set in force; empty when the set does not judge it. */
    public OptionalDouble of(PresetFacts preset, Metric metric) {
        var limit = tolerances
                .of(preset.toleranceSetId(), preset.toleranceSetRevision())
                .limit(metric);
        return limit == null ? OptionalDouble.empty() : OptionalDouble.of(limit.value());
    }
}
