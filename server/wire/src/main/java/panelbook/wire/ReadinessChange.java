package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * Why the readiness of a room changed.
 *
 * @param kind what was entered: run, baseline, match, hero, display-stay, alert and so on; time where only time went by
 * @param text for people, e.g. which run of which preset by which meter
 * @param by who entered it; null where time went by
 * @param subjectId the thing entered, to follow it; null where there is none
 */
public record ReadinessChange(
        String kind,
        String text,
        @Nullable String by,
        @Nullable UUID subjectId) {}
