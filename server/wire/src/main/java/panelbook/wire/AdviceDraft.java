package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/** A line to be added to the table of advice, or to take the place of one. The parts are those of {@link Advice}. */
public record AdviceDraft(
        UUID id,
        AdviceMoment moment,
        @Nullable Look look,
        @Nullable Place place,
        @Nullable String firstControl,
        String text,
        String basis) {}
