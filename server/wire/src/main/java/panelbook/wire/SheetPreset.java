package panelbook.wire;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A preset on a room sheet.
 *
 * @param asLeft what its baseline measured; null when it has none
 * @param latest the run that shows how it stands now; null when there is none
 * @param drift standing findings of its own drift and of the drift from its hero
 * @param setAside as drift, but of agreements that are in question or of operators whose trims it does not stand in
 * @param diagnosis of the latest run, taken warm and not while matching, that holds a grey ramp; null when there is none
 */
public record SheetPreset(
        Preset preset,
        @Nullable AsLeft asLeft,
        @Nullable Run latest,
        List<Finding> drift,
        List<Finding> setAside,
        @Nullable Diagnosis diagnosis) {}
