package panelbook.wire;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A preset on a proof.
 *
 * @param display its name
 * @param asLeft how the last calibration left it; null when it had no baseline
 * @param standing findings of drift that stood at the moment; those of a match in force are told with the match
 * @param setAside as standing, but not counted, since the match was in question
 */
public record ProofPreset(
        UUID id,
        String display,
        String name,
        boolean hero,
        @Nullable ProofAsLeft asLeft,
        List<ProofFigure> standing,
        List<ProofFigure> setAside) {}
