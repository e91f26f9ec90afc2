package panelbook.wire;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A day on which nobody works.
 *
 * @param facilityId where; null for every facility
 */
public record HolidayDraft(UUID id, @Nullable UUID facilityId, LocalDate day, String name) {}
