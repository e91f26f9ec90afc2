package panelbook.wire;

import java.time.LocalDate;
import java.util.UUID;
import org.jspecify.annotations.Nullable;

/**
 * A plan to make.
 *
 * @param facilityId only its rooms; null for every facility
 * @param from first day; null for today
 * @param until last day
 * @param dryRun whether to answer only, proposing nothing
 * @param calibratorDays at most so many days of calibrators, those that save most; null for all there are; for a dry run only
 */
public record PlanDraft(
        UUID id,
        @Nullable UUID facilityId,
        @Nullable LocalDate from,
        LocalDate until,
        boolean dryRun,
        @Nullable Integer calibratorDays) {}
