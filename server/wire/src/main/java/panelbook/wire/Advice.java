package panelbook.wire;

import java.time.Instant;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A line of the table of advice.
 *
 * @param look for an observation: of this look; null for any
 * @param place for an observation: in this place; null for any
 * @param firstControl for an observation: the control to try first
 * @param text what to tell
 * @param basis where it comes from, in words
 * @param version ETag
 */
public record Advice(
        UUID id,
        AdviceMoment moment,
        @Nullable Look look,
        @Nullable Place place,
        @Nullable String firstControl,
        String text,
        String basis,
        @Nullable Instant retiredAt,
        long version) {}
