package panelbook.wire;

import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A preset on a proof.
 *
 * @param display its name
 * @param asLeft how the last calibration left it; null when it had no baseline
 * @param standing figures of drift that stood at the moment
 * @param setAside as standing, but of matches that were in question or of operators whose trims it did not stand in
 */
public record ProofPreset(
        UUID id,
        String display,
        String name,
        boolean hero,
        @Nullable ProofAsLeft asLeft,
        List<ProofFigure> standing,
        List<ProofFigure> setAside) {}
