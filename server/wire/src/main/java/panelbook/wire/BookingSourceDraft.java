package panelbook.wire;

import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A calendar that tells when a room is booked.
 *
 * @param name unique among the calendars of the room
 * @param url http or https address that the service fetches it from, never shown again; null when a client sends it
 */
public record BookingSourceDraft(
        UUID id, String name, @Nullable String url) {

    /** Without the address, which may open the calendar to whoever knows it. */
    @Override
    public String toString() {
        return "BookingSourceDraft[id=" + id + ", name=" + name + "]";
    }
}
