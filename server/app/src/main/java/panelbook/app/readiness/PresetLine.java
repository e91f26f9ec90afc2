package panelbook.app.readiness;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AlertCause;
import panelbook.wire.Decision;
import panelbook.wire.Metric;
import panelbook.wire.Rule;

/**
 * What the readiness of a room has to know of one preset in it. Without a display, or a display without a preset, the
 * fields from {@code display} or {@code preset} on are null or empty.
 *
 * @param hasHero whether the room has a hero for the preset's target
 * @param matched whether it was ever matched to that hero
 * @param unmeasuredFor operators whose match in force was signed without closing runs; null when there is none
 * @param findings that stand and are not within, but for residuals that are set aside
 * @param alerts open on the preset or on the room
 */
record PresetLine(
        UUID roomId,
        String room,
        String facility,
        @Nullable String display,
        @Nullable String preset,
        @Nullable String target,
        boolean hero,
        boolean hasHero,
        boolean hasBaseline,
        @Nullable Instant baselineAt,
        @Nullable Double baselineHours,
        @Nullable Double panelHours,
        @Nullable Integer recalibrationDays,
        @Nullable Integer recalibrationPanelHours,
        @Nullable Instant runAt,
        @Nullable Boolean warmedUp,
        boolean matched,
        @Nullable String unmeasuredFor,
        List<NotWithin> findings,
        List<OpenAlert> alerts) {

    /** A standing finding that is not within. */
    record NotWithin(Rule rule, Metric metric, Decision decision, String explanation, Instant since) {}

    /**
     * An open alert.
     *
     * @param onRoom whether it is about the room rather than the preset
     * @param held whether another explains it
     * @param speaker the alert that speaks for it: the one that explains it, else itself
     */
    record OpenAlert(AlertCause cause, boolean onRoom, boolean held, Speaker speaker) {}

    /** An alert that no other explains. */
    record Speaker(UUID id, AlertCause cause, String headline, Instant since, boolean acknowledged) {}
}
