package panelbook.wire;

import java.time.LocalDate;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * An instrument on a proof.
 *
 * @param certificate number of the certificate that expires last of those issued by the day; null when there is none
 * @param issuedOn its first day
 * @param expiresOn the last day on which it holds
 * @param valid whether it holds on the day of the proof
 * @param luminanceUncertaintyPercent expanded, k = 2
 * @param chromaticityUncertainty expanded, k = 2, in each of u′ and v′
 * @param luminanceFloor standard deviation on black, cd/m²
 * @param corrections that it is read with, by display of the room
 */
public record ProofInstrument(
        UUID id,
        String name,
        InstrumentKind kind,
        @Nullable String serialNumber,
        @Nullable String certificate,
        @Nullable LocalDate issuedOn,
        @Nullable LocalDate expiresOn,
        boolean valid,
        double luminanceUncertaintyPercent,
        double chromaticityUncertainty,
        double luminanceFloor,
        List<SheetCorrection> corrections) {}
