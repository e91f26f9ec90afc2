package panelbook.app.instruments;

import java.time.Instant;
import java.util.Comparator;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.colorimetry.correction.FourColourMatrix;

/**
 * A correction of a meter that was not withdrawn.
 *
 * @param displayId the display it holds for; null when it holds for a model
 * @param place name of that display, or the model
 * @param validFrom it holds for runs taken from then on; null for all
 */
public record MeterCorrection(
        UUID id,
        @Nullable UUID displayId,
        String place,
        int version,
        FourColourMatrix matrix,
        @Nullable Instant validFrom) {

    /** The one to be applied comes last: display before model, then the latest validity, then the highest version. */
    static final Comparator<MeterCorrection> PRECEDENCE = Comparator.comparing(
                    (MeterCorrection correction) -> correction.displayId() != null)
            .thenComparing(MeterCorrection::from)
            .thenComparing(MeterCorrection::version);

    private Instant from() {
        return validFrom == null ? Instant.MIN : validFrom;
    }

    /** Whether it may be applied to a run taken at a time on a display of a model. */
    boolean fits(Instant takenAt, UUID onDisplay, String model) {
        return !from().isAfter(takenAt) && (displayId == null ? place.equals(model) : displayId.equals(onDisplay));
    }

    /** As figures name it. */
    public String name(String instrument) {
        return name(instrument, place, displayId != null, version);
    }

    /** As figures name a correction of a meter for a display or a model. */
    public static String name(String instrument, String place, boolean ofDisplay, int version) {
        return instrument + " on " + place + (ofDisplay ? " (display)" : " (model)") + ", version " + version;
    }
}
