package panelbook.app.alerts;

import java.util.Set;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import panelbook.wire.AlertCause;
import panelbook.wire.AlertState;

/**
 * Which alerts are asked for; null asks for all.
 *
 * @param states none asks for those that are open or acknowledged
 * @param held true for those only that another open alert explains, false for those only that speak for themselves
 */
public record AlertFilter(
        Set<AlertState> states,
        @Nullable AlertCause cause,
        @Nullable UUID roomId,
        @Nullable UUID facilityId,
        @Nullable Boolean held) {}
