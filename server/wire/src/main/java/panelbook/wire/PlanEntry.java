package panelbook.wire;

import java.time.Instant;
import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A plan in the list of plans.
 *
 * @param facility name; null for every facility
 * @param visits it had
 * @param rest presets that it left beyond tolerance
 * @param beyondDays expected days beyond tolerance that it left, weighted by importance
 */
public record PlanEntry(
        UUID id,
        @Nullable UUID facilityId,
        @Nullable String facility,
        LocalDate from,
        LocalDate until,
        int visits,
        int rest,
        double beyondDays,
        Instant madeAt,
        String madeBy) {}
