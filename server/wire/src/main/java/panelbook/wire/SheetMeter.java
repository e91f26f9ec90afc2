package panelbook.wire;

import java.time.Instant;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A meter on a room sheet.
 *
 * @param inHand whether the sheet was asked for with this meter
 * @param lastUsedAt on a preset of the room, in the past year or for a baseline in force; null when it was not
 * @param certificate of those issued by the day of the sheet, UTC, the one that expires last; null when there is none
 * @param valid whether that certificate holds on that day
 * @param corrections one for each display of the room, by name of the display
 */
public record SheetMeter(
        Instrument instrument,
        boolean inHand,
        @Nullable Instant lastUsedAt,
        @Nullable Certificate certificate,
        boolean valid,
        List<SheetCorrection> corrections) {}
