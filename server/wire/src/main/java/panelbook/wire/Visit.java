package panelbook.wire;

import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A calibrator's work in a room.
 *
 * @param room facility/room
 * @param timeZone IANA name, of the room
 * @param calibrator name
 * @param warmUpFrom when the displays are to be switched on; the room is taken from then on
 * @param startsAt of the work
 * @param pinned whether a person fixed its time: no plan moves it
 * @param work in the order in which it is done, heroes before their followers
 * @param reason what was said when it was added, moved or dropped last
 * @param remarks what speaks against it as the book stands now, such as a booking
 * @param planId of the plan that laid it last; null when a person did
 * @param changedBy holder of the token
 * @param version ETag
 */
public record Visit(
        UUID id,
        UUID roomId,
        String room,
        String timeZone,
        UUID calibratorId,
        String calibrator,
        Instant warmUpFrom,
        Instant startsAt,
        Instant endsAt,
        VisitState state,
        boolean pinned,
        List<VisitWork> work,
        @Nullable String reason,
        List<String> remarks,
        @Nullable UUID planId,
        Instant changedAt,
        String changedBy,
        long version) {}
