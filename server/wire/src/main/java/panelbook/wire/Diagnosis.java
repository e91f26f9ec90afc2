package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * What the grey ramp of a run says of the signal path. Explanations travel as words: as-intended, full-squeezed-to-narrow,
 * narrow-expanded-as-full, peak-limited, and wrong-eotf- followed by the EOTF that the display seems to stand in.
 *
 * @param runId the run
 * @param takenAt when it was taken
 * @param levels greys that were looked at, evenly chosen from longer ramps
 * @param likeliest the likeliest explanation
 * @param runnerUp the next; null when the path is as intended so plainly that no fault was weighed
 * @param margin twice the logarithm of the odds between the two; null with runnerUp
 * @param notToldApart explanations that this ramp cannot tell from the likeliest; none when no fault was weighed
 * @param suspect whether trims should wait until a person has looked
 * @param explained whether the likeliest fits; false says that something else is going on
 * @param firstCheck what to check first, in words
 * @param summary what, how sure and what to check first, for people
 * @param corrections of the meter that the run is read with, by name, place and version
 * @param ranking all explanations that were weighed, the likeliest first
 */
public record Diagnosis(
        UUID runId,
        Instant takenAt,
        int levels,
        String likeliest,
        @Nullable String runnerUp,
        @Nullable Double margin,
        List<String> notToldApart,
        boolean suspect,
        boolean explained,
        String firstCheck,
        String summary,
        List<String> corrections,
        List<DiagnosedExplanation> ranking) {}
